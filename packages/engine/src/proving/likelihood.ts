import type { Evidence, EvidenceStep } from "./evidence.ts";
import type { ObservationModel } from "./observation-model.ts";

/**
 * How well one hypothesis explains the readings, with the building's own load marginalised.
 *
 * A Kalman filter over the steps. Its state holds active and reactive power of the building on each
 * line (a random walk from step to step), the ratio between what the car draws and what it should, and
 * for each channel a small error of ratio and of angle. Powers are linear in the state; currents are
 * linearised at the estimate and the estimate repeated. What no reading determines stays as uncertain as
 * it was. All work is done in arrays made once; nothing is allocated while steps are weighed.
 */
export class Likelihood {
  /** After each step, the logarithm of the density of all readings so far. */
  readonly cumulative: Float64Array;
  /** State and covariance after the last step. */
  readonly state: Float64Array;
  readonly covariance: Float64Array;
  readonly size: number;
  private readonly row: Float64Array;
  private readonly gain: Float64Array;
  private readonly before: Float64Array;
  private readonly lines: number;
  private readonly volts: Float64Array;
  private readonly voltageIsRead: boolean;
  private leastLoad = 0;

  constructor(
    private readonly evidence: Evidence,
    private readonly scale: LoadScale = USUAL_LOAD,
  ) {
    this.lines = evidence.lines;
    this.size = 4 * this.lines + 1;
    this.cumulative = new Float64Array(evidence.steps.length);
    this.state = new Float64Array(this.size);
    this.covariance = new Float64Array(this.size * this.size);
    this.row = new Float64Array(this.size);
    this.gain = new Float64Array(this.size);
    this.before = new Float64Array(this.size);
    this.volts = lineVoltages(evidence);
    this.voltageIsRead = evidence.steps.some((step) => step.V.some((value) => !Number.isNaN(value)));
  }

  /**
   * Logarithm of the density of the readings under a hypothesis; −∞ once it has fallen `slack` behind
   * `best` at any step, since it can no longer matter.
   */
  of(model: ObservationModel, evidence: Evidence = this.evidence, best?: Float64Array, slack = 30): number {
    const mayExport = model.mayExport || (evidence.steps[0] as EvidenceStep).mayExport;
    if (!mayExport) return this.from(this.scale.meanW, model, evidence, best, slack);
    // Unsigned currents fit importing and exporting alike: each is weighed from its own side.
    const exporting = this.from(-1.5 * this.scale.meanW, model, evidence, best, slack);
    const importing = this.from(this.scale.meanW, model, evidence, best, slack);
    const most = Math.max(exporting, importing);
    return most === Number.NEGATIVE_INFINITY
      ? most
      : most + Math.log((Math.exp(exporting - most) + Math.exp(importing - most)) / 2);
  }

  private from(
    meanW: number,
    model: ObservationModel,
    evidence: Evidence,
    best: Float64Array | undefined,
    slack: number,
  ): number {
    const { lines: n } = this;
    this.start(meanW, model, evidence);
    let sum = this.voltages(model, evidence);
    for (let s = 0; s < evidence.steps.length; s++) {
      const step = evidence.steps[s] as EvidenceStep;
      if (s > 0) this.advance(model, step, evidence.steps[s - 1] as EvidenceStep);
      sum += this.step(model, evidence, step);
      const mayExport = model.mayExport || step.mayExport;
      if (!mayExport) for (let k = 0; k < n; k++) this.noteLoad(k);
      this.cumulative[s] = sum;
      if (best !== undefined && sum < (best[s] as number) - slack) return Number.NEGATIVE_INFINITY;
    }
    return sum + this.leastLoad;
  }

  private start(meanW: number, model: ObservationModel, evidence: Evidence): void {
    const { lines: n, size, state, covariance, scale } = this;
    const first = evidence.steps[0] as EvidenceStep;
    const mayExport = model.mayExport || first.mayExport;
    state.fill(0);
    covariance.fill(0);
    this.leastLoad = 0;
    for (let k = 0; k < n; k++) {
      state[k] = meanW + (first.loadW[k] as number);
      state[n + k] = scale.tan * (state[k] as number);
      covariance[k * size + k] =
        (mayExport ? 1.5 * scale.sdW : scale.sdW) ** 2 + (LOAD_SD * (first.loadW[k] as number)) ** 2;
      const spread = covariance[k * size + k] as number;
      covariance[k * size + n + k] = scale.tan * spread;
      covariance[(n + k) * size + k] = scale.tan * spread;
      covariance[(n + k) * size + n + k] = scale.tan ** 2 * spread + scale.sdVar ** 2;
    }
    const r = 2 * n;
    state[r] = 1;
    covariance[r * size + r] =
      (evidence.carIsMeasured ? MEASURED_CAR_SD : OFFERED_CAR_SD) ** 2 + model.carSd ** 2;
    for (let c = 0; c < n; c++) {
      const g = r + 1 + c;
      const d = g + n;
      covariance[g * size + g] = (model.gainSd[c] as number) ** 2;
      covariance[d * size + d] = (model.angleSd[c] as number) ** 2;
    }
  }

  /** The building's load wanders; loads of known size come and go; a loose terminal changes its gain. */
  private advance(model: ObservationModel, step: EvidenceStep, last: EvidenceStep): void {
    const { lines: n, size, state, covariance, scale } = this;
    for (let k = 0; k < n; k++) {
      const change = (step.loadW[k] as number) - (last.loadW[k] as number);
      state[k] = (state[k] as number) + change;
      add(covariance, k * size + k, scale.driftW ** 2 + (LOAD_SD * change) ** 2);
      add(covariance, (n + k) * size + n + k, scale.driftVar ** 2 + (LOAD_VAR_SD * change) ** 2);
    }
    for (let c = 0; c < n; c++) {
      const g = 2 * n + 1 + c;
      add(covariance, g * size + g, (model.wander[c] as number) ** 2);
    }
  }

  private step(model: ObservationModel, evidence: Evidence, step: EvidenceStep): number {
    const { lines: n } = this;
    let sum = 0;
    let powerMissing = false;
    for (let c = 0; c < n; c++) {
      const [P, Q, I] = [step.P[c] as number, step.Q[c] as number, step.I[c] as number];
      const hasP = !Number.isNaN(P);
      const hasQ = !Number.isNaN(Q);
      const hasI = !Number.isNaN(I);
      if (!hasP) powerMissing = true;
      const small = model.floorA > 0 && this.isBelow(model, step, c);
      if (
        small ||
        (model.clipA < Number.POSITIVE_INFINITY && hasI && this.isClipped(model, evidence, c, I))
      ) {
        sum += hasI ? censored(evidence.resolution.I) : 0;
        sum += hasP ? censored(evidence.resolution.P) : 0;
        sum += hasQ ? censored(evidence.resolution.Q) : 0;
        continue;
      }
      if (hasP) sum += this.power(model, step, c, P, false, evidence.resolution.P);
      if (hasQ) sum += this.power(model, step, c, Q, true, evidence.resolution.Q);
      if (hasI) {
        sum +=
          hasP && hasQ && (model.voltage[c] as number) > 0.01
            ? this.identity(model, step, c, I, evidence.resolution.I)
            : this.current(model, step, c, I, evidence.resolution.I);
      }
    }
    if (powerMissing && !Number.isNaN(step.totalP)) {
      sum += this.totalPower(model, step, step.totalP, false, evidence.resolution.P);
      if (!Number.isNaN(step.totalQ)) {
        sum += this.totalPower(model, step, step.totalQ, true, evidence.resolution.Q);
      }
    }
    for (let k = 0; k < n; k++) {
      const clamp = step.clampA[k] as number;
      if (!Number.isNaN(clamp)) sum += this.clamp(model, step, k, clamp);
    }
    return sum;
  }

  /** One channel's active power, or its reactive power. */
  private power(
    model: ObservationModel,
    step: EvidenceStep,
    c: number,
    value: number,
    isReactive: boolean,
    resolution: number,
  ): number {
    const { lines: n, row } = this;
    // The errors of ratio and angle act on what the channel is expected to carry.
    row.fill(0);
    this.addPowerRow(model, step, c, !isReactive);
    const twin = this.expectation();
    row.fill(0);
    this.addPowerRow(model, step, c, isReactive);
    let expected = this.expectation();
    if (value === 0 && expected === 0) return censored(resolution);
    row[2 * n + 1 + c] = expected;
    row[3 * n + 1 + c] = isReactive ? -twin : twin;
    expected +=
      (row[2 * n + 1 + c] as number) * (this.state[2 * n + 1 + c] as number) +
      (row[3 * n + 1 + c] as number) * (this.state[3 * n + 1 + c] as number);
    const noise =
      POWER_FLOOR ** 2 + (RANDOM_SD * value) ** 2 + (RANDOM_SD * twin) ** 2 + resolution ** 2 / 12;
    return this.update(value, expected, noise);
  }

  private totalPower(
    model: ObservationModel,
    step: EvidenceStep,
    value: number,
    isReactive: boolean,
    resolution: number,
  ): number {
    const { lines: n, row, state } = this;
    row.fill(0);
    for (let c = 0; c < n; c++) this.addPowerRow(model, step, c, isReactive);
    const expected = this.expectation();
    if (value === 0 && expected === 0) return censored(resolution);
    let noise = (POWER_FLOOR * model.scale) ** 2 + (RANDOM_SD * value) ** 2 + resolution ** 2 / 12;
    // Channels are not read one by one: their errors enter as noise of what each is expected to carry.
    for (let c = 0; c < n; c++) {
      let share = 0;
      for (let k = 0; k < n; k++) {
        const at = c * n + k;
        share +=
          (model.mRe[at] as number) * (state[k] as number) +
          (model.eRe[at] as number) * this.carW(step, k) * (state[2 * n] as number);
      }
      if (isReactive) continue;
      row[2 * n + 1 + c] = share;
      noise += ((model.angleSd[c] as number) * share * 0.3) ** 2;
    }
    return this.update(value, expected, noise);
  }

  private addPowerRow(model: ObservationModel, step: EvidenceStep, c: number, isReactive: boolean): void {
    const { lines: n, row } = this;
    for (let k = 0; k < n; k++) {
      const at = c * n + k;
      const [re, im] = [model.mRe[at] as number, model.mIm[at] as number];
      const [er, ei] = [model.eRe[at] as number, model.eIm[at] as number];
      const car = this.carW(step, k);
      add(row, k, isReactive ? im : re);
      add(row, n + k, isReactive ? re : -im);
      add(row, 2 * n, car * (isReactive ? ei + er * CAR_TAN : er - ei * CAR_TAN));
    }
  }

  private expectation(): number {
    const { row, state, size } = this;
    let sum = 0;
    for (let i = 0; i < size; i++) sum += (row[i] as number) * (state[i] as number);
    return sum;
  }

  /** A channel's current where its powers are not both read: a modulus, linearised and repeated. */
  private current(
    model: ObservationModel,
    step: EvidenceStep,
    c: number,
    value: number,
    resolution: number,
  ): number {
    const { lines: n, state, row, before, size } = this;
    const voltage = this.volts[c] as number;
    before.set(state);
    let expected = 0;
    if (value === 0 && this.isDead(model, c)) return censored(resolution);
    const voltageSd = this.voltageIsRead || Number.isNaN(step.P[c] as number) ? 0 : UNREAD_VOLTAGE_SD;
    const noise =
      (CURRENT_FLOOR * model.scale) ** 2 +
      (RANDOM_SD ** 2 + voltageSd ** 2) * value ** 2 +
      resolution ** 2 / 12;
    // The estimate only moves in the last pass; those before it find where to linearise.
    for (let pass = 0; pass < PASSES; pass++) {
      row.fill(0);
      expected = model.sumsCurrents
        ? Array.from({ length: n }, (_, j) => this.addCurrentRow(model, step, j, voltage)).reduce(
            (a, b) => a + b,
          )
        : this.addCurrentRow(model, step, c, voltage);
      row[2 * n + 1 + c] = expected;
      expected *= 1 + (state[2 * n + 1 + c] as number);
      if (pass === PASSES - 1) break;
      this.propose(value, expected, noise, before);
    }
    // Expectation of the linear model at the estimate from before this reading.
    let linear = expected;
    for (let i = 0; i < size; i++)
      linear += (row[i] as number) * ((before[i] as number) - (state[i] as number));
    state.set(before);
    return this.update(value, linear, noise);
  }

  /** What the car should draw on a line. [W] */
  private carW(step: EvidenceStep, k: number): number {
    return (step.carA[k] as number) * (this.volts[k] as number);
  }

  private isDead(model: ObservationModel, c: number): boolean {
    if (model.sumsCurrents) return false;
    for (let at = c * this.lines; at < (c + 1) * this.lines; at++) {
      if (model.qRe[at] !== 0 || model.qIm[at] !== 0 || model.fRe[at] !== 0 || model.fIm[at] !== 0)
        return false;
    }
    return true;
  }

  /** Adds the gradient of |I′| of one channel to the row; returns |I′|. */
  private addCurrentRow(model: ObservationModel, step: EvidenceStep, c: number, voltage: number): number {
    const { lines: n, state, row } = this;
    const r = state[2 * n] as number;
    let re = 0;
    let im = 0;
    let carRe = 0;
    let carIm = 0;
    for (let k = 0; k < n; k++) {
      const at = c * n + k;
      const [qr, qi] = [model.qRe[at] as number, model.qIm[at] as number];
      const [fr, fi] = [model.fRe[at] as number, model.fIm[at] as number];
      const [P, Q] = [state[k] as number, state[n + k] as number];
      const car = this.carW(step, k);
      re += qr * P - qi * Q;
      im += qr * Q + qi * P;
      carRe += car * (fr - fi * CAR_TAN);
      carIm += car * (fi + fr * CAR_TAN);
    }
    re += carRe * r;
    im += carIm * r;
    const size = Math.hypot(re, im);
    const [ur, ui] = size > 1e-6 ? [re / size, im / size] : [1, 0];
    for (let k = 0; k < n; k++) {
      const at = c * n + k;
      const [qr, qi] = [model.qRe[at] as number, model.qIm[at] as number];
      add(row, k, (ur * qr + ui * qi) / voltage);
      add(row, n + k, (ui * qr - ur * qi) / voltage);
    }
    add(row, 2 * n, (ur * carRe + ui * carIm) / voltage);
    return size / voltage;
  }

  /** Moves the estimate, not its covariance, to where this reading would put it. */
  private propose(value: number, expected: number, noise: number, before: Float64Array): void {
    const { size, row, covariance, state, gain } = this;
    let variance = noise;
    let linear = expected;
    for (let i = 0; i < size; i++) {
      linear += (row[i] as number) * ((before[i] as number) - (state[i] as number));
      let sum = 0;
      for (let j = 0; j < size; j++) sum += (covariance[i * size + j] as number) * (row[j] as number);
      gain[i] = sum;
      variance += sum * (row[i] as number);
    }
    const factor = (value - linear) / variance;
    for (let i = 0; i < size; i++) state[i] = (before[i] as number) + (gain[i] as number) * factor;
  }

  /** Current, voltage and powers of one channel must agree whatever the site does. */
  private identity(
    model: ObservationModel,
    step: EvidenceStep,
    c: number,
    value: number,
    resolution: number,
  ): number {
    const { lines: n } = this;
    const channels = model.sumsCurrents ? Array.from({ length: n }, (_, j) => j) : [c];
    let expected = 0;
    for (const j of channels) {
      const volts = step.V[j] as number;
      const relative = model.voltage[j] as number;
      const voltage = Number.isNaN(volts) ? (this.volts[j] as number) * relative : volts;
      const [P, Q] = [step.P[j] as number, step.Q[j] as number];
      if (Number.isNaN(P) || Number.isNaN(Q)) return 0;
      if (voltage < 1) return logDensity(value, UNRELATED_A ** 2);
      expected += Math.hypot(P, Q) / voltage;
    }
    const sd = Math.hypot(
      CURRENT_FLOOR * model.scale,
      (Number.isNaN(step.V[c] as number) ? 0.04 : 0.008) * Math.max(value, expected),
      resolution,
    );
    return value === 0 && expected === 0 ? censored(resolution) : logDensity(value - expected, sd * sd);
  }

  private clamp(model: ObservationModel, step: EvidenceStep, k: number, value: number): number {
    const { lines: n, state, row } = this;
    const r = state[2 * n] as number;
    const car = this.carW(step, k);
    const [re, im] = [(state[k] as number) + car * r, (state[n + k] as number) + car * r * CAR_TAN];
    const size = Math.max(1, Math.hypot(re, im));
    row.fill(0);
    row[k] = re / size / SUPPLY_V;
    row[n + k] = im / size / SUPPLY_V;
    row[2 * n] = ((re + im * CAR_TAN) * car) / size / SUPPLY_V;
    const hidden = model.hidesLoad ? HIDDEN_A : 0;
    return this.update(value, size / SUPPLY_V, 0.2 ** 2 + (CLAMP_SD * value) ** 2 + hidden ** 2);
  }

  /** Voltages are told apart by size only, once for all steps: they hardly change. */
  private voltages(model: ObservationModel, evidence: Evidence): number {
    const { lines: n } = this;
    let sum = 0;
    for (let c = 0; c < n; c++) {
      let mean = 0;
      let count = 0;
      for (const step of evidence.steps) {
        const value = step.V[c] as number;
        if (Number.isNaN(value)) continue;
        mean += value;
        count++;
      }
      if (count === 0) continue;
      const relative = model.voltage[c] as number;
      const sd = Math.hypot(model.voltageSdV, 2 * relative, evidence.resolution.V);
      sum +=
        mean === 0 && relative < 0.01
          ? censored(evidence.resolution.V)
          : logDensity(mean / count - relative * SUPPLY_V, sd * sd);
    }
    return sum;
  }

  private isBelow(model: ObservationModel, step: EvidenceStep, c: number): boolean {
    const { row } = this;
    const shown = [step.I[c], step.P[c], step.Q[c]].filter((value) => !Number.isNaN(value as number));
    if (shown.length === 0 || shown.some((value) => value !== 0)) return false;
    row.fill(0);
    return this.addCurrentRow(model, step, c, SUPPLY_V) < model.floorA * 1.5;
  }

  private isClipped(model: ObservationModel, evidence: Evidence, c: number, value: number): boolean {
    let most = 0;
    let atMost = 0;
    for (const step of evidence.steps) most = Math.max(most, step.I[c] as number);
    for (const step of evidence.steps) if ((step.I[c] as number) > 0.995 * most) atMost++;
    return atMost > 1 && most > 0.5 * model.clipA && most < 1.5 * model.clipA && value > 0.995 * most;
  }

  /** A load that would have to be negative speaks against a hypothesis, unless power may flow back. */
  private noteLoad(k: number): void {
    const { size, state, covariance } = this;
    const sd = Math.sqrt(covariance[k * size + k] as number);
    const factor = logNormalCdf((state[k] as number) / Math.max(sd, 1)) - this.scale.logPositive;
    if (factor < this.leastLoad) this.leastLoad = factor;
  }

  private update(value: number, expected: number, noise: number): number {
    const { size, row, covariance, state, gain } = this;
    let variance = noise;
    for (let i = 0; i < size; i++) {
      let sum = 0;
      const base = i * size;
      for (let j = 0; j < size; j++) sum += (covariance[base + j] as number) * (row[j] as number);
      gain[i] = sum;
      variance += sum * (row[i] as number);
    }
    const innovation = value - expected;
    const factor = innovation / variance;
    for (let i = 0; i < size; i++) {
      const g = gain[i] as number;
      if (g === 0) continue;
      state[i] = (state[i] as number) + g * factor;
      const base = i * size;
      const scaled = g / variance;
      for (let j = 0; j < size; j++)
        covariance[base + j] = (covariance[base + j] as number) - scaled * (gain[j] as number);
    }
    return logDensity(innovation, variance);
  }
}

/** What a building may draw on one line before anything of it is known, and how it wanders between steps. */
export interface LoadScale {
  readonly meanW: number;
  readonly sdW: number;
  /** Reactive over active power, and what it strays by. [1], [var] */
  readonly tan: number;
  readonly sdVar: number;
  readonly driftW: number;
  readonly driftVar: number;
  /** Logarithm of the share of the first distribution that is positive. */
  readonly logPositive: number;
}

const loadScale = (driftA: number): LoadScale => ({
  meanW: 1000,
  sdW: 1500,
  tan: 0.2,
  sdVar: 450,
  driftW: SUPPLY_V * driftA,
  driftVar: SUPPLY_V * driftA * 0.35,
  logPositive: logNormalCdf(1000 / 1500),
});

const SUPPLY_V = 238;
/** Relative standard deviations: what a car draws against its offer, its own meter, a known load, a clamp. */
const OFFERED_CAR_SD = 0.04;
const MEASURED_CAR_SD = 0.015;
const CAR_TAN = 0.05;
const LOAD_SD = 0.06;
const LOAD_VAR_SD = 0.03;
const CLAMP_SD = 0.02;
const HIDDEN_A = 20;
/** A current beside no voltage and no power: it follows from neither. [A] */
const UNRELATED_A = 25;
/** Errors from reading to reading: relative, and at the low end. [1], [W], [A] */
const RANDOM_SD = 0.005;
const POWER_FLOOR = 15;
const CURRENT_FLOOR = 0.08;
const PASSES = 3;
/** Relative, of a supply whose voltage nobody read. */
const UNREAD_VOLTAGE_SD = 0.02;

const LOG_2PI = Math.log(2 * Math.PI);
const logDensity = (difference: number, variance: number): number =>
  -0.5 * (LOG_2PI + Math.log(variance) + (difference * difference) / variance);
/** A reading of exactly the least or the most a meter shows: as likely as one step of its display. */
const censored = (resolution: number): number => -Math.log(resolution);

function add(array: Float64Array, index: number, value: number): void {
  array[index] = (array[index] as number) + value;
}

/** Logarithm of the normal distribution function; its tail by the asymptotic series. */
function logNormalCdf(z: number): number {
  if (z < -6) return -0.5 * z * z - 0.5 * LOG_2PI - Math.log(-z);
  const t = 1 / (1 + 0.2316419 * Math.abs(z));
  const tail =
    Math.exp(-0.5 * z * z - 0.5 * LOG_2PI) *
    t *
    (0.31938153 + t * (-0.356563782 + t * (1.781477937 + t * (-1.821255978 + t * 1.330274429))));
  return z >= 0 ? Math.log1p(-tail) : Math.log(tail);
}

/** Voltage of each line as its channel shows it, where that is a supply's; the usual one elsewhere. [V] */
function lineVoltages({ lines, steps }: Evidence): Float64Array {
  return Float64Array.from({ length: lines }, (_, c) => {
    const read = steps.map((step) => step.V[c] as number).filter((value) => value > 200 && value < 265);
    return read.length === 0 ? SUPPLY_V : read.reduce((sum, value) => sum + value, 0) / read.length;
  });
}

export const QUIET_LOAD = loadScale(0.25);
export const USUAL_LOAD = loadScale(1);
export const RESTLESS_LOAD = loadScale(8);
