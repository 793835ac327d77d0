import { censored, logDensity, logNormalCdf } from "./densities.ts";
import type { Evidence, EvidenceStep } from "./evidence.ts";
import { type LoadScale, SUPPLY_V } from "./load-scale.ts";
import type { ObservationModel } from "./observation-model.ts";

/** A reading as it is weighed: what it is of, as read, and as expected from all before it. */
export interface WatchedReading {
  /** Index of the step, and of the channel or line. */
  readonly step: number;
  readonly index: number;
  readonly quantity: "P" | "Q" | "I" | "total P" | "total Q" | "clamp";
  readonly value: number;
  readonly expected: number;
  readonly variance: number;
}
export type ReadingWatcher = (reading: WatchedReading) => void;

export interface Expected {
  readonly mean: number;
  readonly variance: number;
}

/** What one step would show on each channel, and a clamp on each line. */
export interface Forecast {
  readonly V: readonly Expected[];
  readonly I: readonly Expected[];
  readonly P: readonly Expected[];
  readonly Q: readonly Expected[];
  readonly clamp: readonly Expected[];
}

/**
 * How well hypotheses explain readings, with the building's own load marginalised.
 *
 * A Kalman filter over the steps. Its state holds active and reactive power of the building on each
 * line (a random walk from step to step), the ratio between what the car draws and what it should, and
 * for each channel a small error of ratio and of angle. Powers are linear in the state; currents are
 * linearised at the estimate and the estimate repeated. What no reading determines stays as uncertain as
 * it was. All work is done in arrays made once; nothing is allocated while a step is weighed.
 */
export class Likelihood {
  /** After each step, the logarithm of the density of all readings so far. */
  readonly cumulative: Float64Array;
  /** Estimate and covariance after the last step: P and Q of each line, car, gains, angles. */
  readonly state: Float64Array;
  readonly covariance: Float64Array;
  readonly size: number;

  private readonly row: Float64Array;
  private readonly gain: Float64Array;
  /** Places of the state that the last projected reading bears on. */
  private readonly touched: Int32Array;
  private touchedCount = 0;
  private readonly before: Float64Array;
  private readonly lines: number;
  private readonly volts: Float64Array;
  private readonly voltageIsRead: boolean;
  private readonly logPositive: number;
  private leastLoad = 0;
  private watcher: ReadingWatcher | null = null;
  private stepIndex = 0;
  private index = 0;
  private quantity: WatchedReading["quantity"] = "P";

  constructor(
    evidence: Evidence,
    private readonly scale: LoadScale,
  ) {
    this.lines = evidence.lines;
    this.size = 4 * this.lines + 1;
    this.cumulative = new Float64Array(evidence.steps.length);
    this.state = new Float64Array(this.size);
    this.covariance = new Float64Array(this.size * this.size);
    this.row = new Float64Array(this.size);
    this.gain = new Float64Array(this.size);
    this.touched = new Int32Array(this.size);
    this.before = new Float64Array(this.size);
    this.volts = lineVoltages(evidence);
    this.voltageIsRead = evidence.steps.some((step) => step.V.some((value) => !Number.isNaN(value)));
    this.logPositive = logNormalCdf(scale.meanW / scale.sdW);
  }

  /**
   * Logarithm of the density of the readings under a hypothesis; −∞ once it has fallen below `floor` at
   * any step, since it can no longer matter.
   *
   * @param floor Per step, the least cumulative value worth going on with.
   */
  of(model: ObservationModel, evidence: Evidence, floor?: Float64Array): number {
    const mayExport = model.mayExport || (evidence.steps[0] as EvidenceStep).mayExport;
    if (!mayExport) return this.from(this.scale.meanW, this.scale.sdW, model, evidence, floor);
    // Unsigned currents fit importing and exporting alike: each is weighed from its own side.
    const sd = 1.5 * this.scale.sdW;
    const exporting = this.from(-1.5 * this.scale.meanW, sd, model, evidence, floor);
    const importing = this.from(this.scale.meanW, sd, model, evidence, floor);
    const most = Math.max(exporting, importing);
    return most === Number.NEGATIVE_INFINITY
      ? most
      : most + Math.log((Math.exp(exporting - most) + Math.exp(importing - most)) / 2);
  }

  /** As {@link of}, telling for every reading what was expected just before it was weighed. */
  watch(model: ObservationModel, evidence: Evidence, watcher: ReadingWatcher): number {
    this.watcher = watcher;
    const value = this.of(model, evidence);
    this.watcher = null;
    return value;
  }

  /**
   * What a further step would show, given all steps so far under the same hypothesis: call after
   * {@link of} with the same model. The estimate is left as it stands.
   */
  forecast(model: ObservationModel, step: EvidenceStep, last: EvidenceStep): Forecast {
    const state = Float64Array.from(this.state);
    const covariance = Float64Array.from(this.covariance);
    this.advance(model, step, last);
    const { lines: n, row } = this;
    const each = (one: (c: number) => Expected): Expected[] => Array.from({ length: n }, (_, c) => one(c));
    const power = (c: number, isReactive: boolean): Expected => {
      row.fill(0);
      this.addPowerRow(model, step, c, isReactive);
      const mean = this.expectation();
      row[2 * n + 1 + c] = mean;
      return { mean, variance: this.project((POWER_FLOOR * model.scale) ** 2 + RANDOM_VAR * mean * mean) };
    };
    const current = (c: number): Expected => {
      row.fill(0);
      const mean = this.addCurrentRows(model, step, c);
      row[2 * n + 1 + c] = mean;
      return { mean, variance: this.project((CURRENT_FLOOR * model.scale) ** 2 + RANDOM_VAR * mean * mean) };
    };
    const forecast = {
      P: each((c) => power(c, false)),
      Q: each((c) => power(c, true)),
      I: each(current),
      V: each((c) => ({
        mean: (model.voltage[c] as number) * SUPPLY_V,
        variance: model.voltageSdV ** 2 + 1,
      })),
      clamp: each((k) => this.clampExpected(model, step, k)),
    };
    this.state.set(state);
    this.covariance.set(covariance);
    return forecast;
  }

  private clampExpected(model: ObservationModel, step: EvidenceStep, k: number): Expected {
    const mean = this.addClampRow(step, k);
    const hidden = model.hidesLoad ? HIDDEN_A : 0;
    return { mean, variance: this.project(0.2 ** 2 + (CLAMP_SD * mean) ** 2 + hidden * hidden) };
  }

  private from(
    meanW: number,
    sdW: number,
    model: ObservationModel,
    evidence: Evidence,
    floor: Float64Array | undefined,
  ): number {
    const { lines: n } = this;
    let sum = this.voltages(model, evidence);
    if (floor !== undefined && sum + BEST_STEP < (floor[0] as number)) return Number.NEGATIVE_INFINITY;
    this.start(meanW, sdW, model, evidence);
    for (let s = 0; s < evidence.steps.length; s++) {
      const step = evidence.steps[s] as EvidenceStep;
      this.stepIndex = s;
      if (s > 0) this.advance(model, step, evidence.steps[s - 1] as EvidenceStep);
      sum += this.step(model, evidence, step);
      if (!model.mayExport && !step.mayExport) for (let k = 0; k < n; k++) this.noteLoad(k);
      this.cumulative[s] = sum;
      if (floor !== undefined && !(sum >= (floor[s] as number))) return Number.NEGATIVE_INFINITY;
    }
    return sum + this.leastLoad;
  }

  private start(meanW: number, sdW: number, model: ObservationModel, evidence: Evidence): void {
    const { lines: n, size, state, covariance, scale } = this;
    const first = evidence.steps[0] as EvidenceStep;
    state.fill(0);
    covariance.fill(0);
    this.leastLoad = 0;
    for (let k = 0; k < n; k++) {
      const load = first.loadW[k] as number;
      const spread = sdW * sdW + (LOAD_SD * load) ** 2;
      state[k] = meanW + load;
      state[n + k] = scale.tan * meanW;
      covariance[k * size + k] = spread;
      covariance[k * size + n + k] = scale.tan * spread;
      covariance[(n + k) * size + k] = scale.tan * spread;
      covariance[(n + k) * size + n + k] = scale.tan ** 2 * spread + scale.sdVar ** 2;
    }
    const car = 2 * n;
    state[car] = 1;
    covariance[car * size + car] =
      (evidence.carIsMeasured ? MEASURED_CAR_SD : OFFERED_CAR_SD) ** 2 + model.carSd ** 2;
    for (let c = 0; c < n; c++) {
      const gain = car + 1 + c;
      const angle = gain + n;
      covariance[gain * size + gain] = (model.gainSd[c] as number) ** 2;
      covariance[angle * size + angle] = (model.angleSd[c] as number) ** 2;
    }
  }

  /** The building's load wanders; loads of known size come and go; a loose terminal changes its gain. */
  private advance(model: ObservationModel, step: EvidenceStep, last: EvidenceStep): void {
    const { lines: n, size, state, covariance, scale } = this;
    for (let k = 0; k < n; k++) {
      const change = (step.loadW[k] as number) - (last.loadW[k] as number);
      state[k] = (state[k] as number) + change;
      plus(covariance, k * size + k, scale.driftW ** 2 + (LOAD_SD * change) ** 2);
      plus(covariance, (n + k) * size + n + k, scale.driftVar ** 2 + (LOAD_VAR_SD * change) ** 2);
    }
    for (let c = 0; c < n; c++) {
      const wander = model.wander[c] as number;
      if (wander === 0) continue;
      const gain = 2 * n + 1 + c;
      plus(covariance, gain * size + gain, wander * wander);
    }
  }

  private step(model: ObservationModel, evidence: Evidence, step: EvidenceStep): number {
    const { lines: n } = this;
    const { resolution } = evidence;
    let sum = 0;
    let powerMissing = false;
    for (let c = 0; c < n; c++) {
      const P = step.P[c] as number;
      const Q = step.Q[c] as number;
      const I = step.I[c] as number;
      const hasP = !Number.isNaN(P);
      const hasQ = !Number.isNaN(Q);
      const hasI = !Number.isNaN(I);
      if (!hasP) powerMissing = true;
      if (model.floorA > 0 && isSilent(P) && isSilent(Q) && isSilent(I) && (hasP || hasQ || hasI)) {
        sum += this.below(model, step, c);
        sum += (hasI ? censored(resolution.I) : 0) + (hasP ? censored(resolution.P) : 0);
        sum += hasQ ? censored(resolution.Q) : 0;
        continue;
      }
      if (model.clipA < Number.POSITIVE_INFINITY && hasI && isClipped(model, evidence, c, I)) {
        sum += censored(resolution.I) + (hasP ? censored(resolution.P) : 0);
        sum += hasQ ? censored(resolution.Q) : 0;
        continue;
      }
      if (hasP) sum += this.power(model, step, c, P, false, resolution.P);
      if (hasQ) sum += this.power(model, step, c, Q, true, resolution.Q);
      if (hasI) {
        sum +=
          hasP && hasQ && model.hasPower[c]
            ? this.identity(model, step, c, I, resolution.I)
            : this.current(model, step, c, I, resolution.I);
      }
    }
    if (powerMissing && !Number.isNaN(step.totalP)) {
      sum += this.totalPower(model, step, step.totalP, false, resolution.P);
      if (!Number.isNaN(step.totalQ)) sum += this.totalPower(model, step, step.totalQ, true, resolution.Q);
    }
    for (let k = 0; k < n; k++) {
      const clamp = step.clampA[k] as number;
      if (!Number.isNaN(clamp)) sum += this.clamp(model, step, k, clamp);
    }
    return sum;
  }

  /** What the car should draw on a line. [W] */
  private carW(step: EvidenceStep, k: number): number {
    return (step.carA[k] as number) * (this.volts[k] as number);
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
    const { lines: n, row, state } = this;
    row.fill(0);
    this.addPowerRow(model, step, c, !isReactive);
    const twin = this.expectation();
    row.fill(0);
    this.addPowerRow(model, step, c, isReactive);
    const ideal = this.expectation();
    if (value === 0 && ideal === 0) return censored(resolution);
    // The errors of ratio and angle act on what the channel is expected to carry.
    const gain = 2 * n + 1 + c;
    row[gain] = ideal;
    row[gain + n] = isReactive ? -twin : twin;
    const expected =
      ideal * (1 + (state[gain] as number)) + (row[gain + n] as number) * (state[gain + n] as number);
    const floor = POWER_FLOOR * model.scale;
    const noise =
      floor * floor +
      RANDOM_VAR * (value * value + twin * twin) +
      (resolution * resolution) / 12 +
      this.carAngleVariance(model, step, c, isReactive);
    this.index = c;
    this.quantity = isReactive ? "Q" : "P";
    return Math.min(this.update(value, expected, noise), censored(resolution));
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
    let expected = this.expectation();
    if (value === 0 && expected === 0) return censored(resolution);
    const floor = POWER_FLOOR * model.scale;
    let noise = floor * floor + RANDOM_VAR * value * value + (resolution * resolution) / 12;
    for (let c = 0; c < n; c++) {
      const share = this.channelPower(model, step, c, isReactive);
      const gain = 2 * n + 1 + c;
      row[gain] = share;
      expected += share * (state[gain] as number);
      const turned = (model.angleSd[c] as number) * TYPICAL_TAN * share;
      noise += turned * turned + this.carAngleVariance(model, step, c, isReactive);
    }
    this.index = 0;
    this.quantity = isReactive ? "total Q" : "total P";
    return Math.min(this.update(value, expected, noise), censored(resolution));
  }

  /** A car's own phase angle is not known exactly: it blurs reactive power, and active where phases are crossed. */
  private carAngleVariance(
    model: ObservationModel,
    step: EvidenceStep,
    c: number,
    isReactive: boolean,
  ): number {
    const { lines: n } = this;
    let sum = 0;
    for (let k = 0; k < n; k++) {
      const car = this.carW(step, k);
      if (car === 0) continue;
      const part = car * CAR_TAN_SD * ((isReactive ? model.eRe : model.eIm)[c * n + k] as number);
      sum += part * part;
    }
    return sum;
  }

  private addPowerRow(model: ObservationModel, step: EvidenceStep, c: number, isReactive: boolean): void {
    const { lines: n, row } = this;
    for (let k = 0; k < n; k++) {
      const at = c * n + k;
      const re = model.mRe[at] as number;
      const im = model.mIm[at] as number;
      const er = model.eRe[at] as number;
      const ei = model.eIm[at] as number;
      if (isReactive) {
        plus(row, k, im);
        plus(row, n + k, re);
        plus(row, 2 * n, this.carW(step, k) * (ei + er * CAR_TAN));
      } else {
        plus(row, k, re);
        plus(row, n + k, -im);
        plus(row, 2 * n, this.carW(step, k) * (er - ei * CAR_TAN));
      }
    }
  }

  private channelPower(model: ObservationModel, step: EvidenceStep, c: number, isReactive: boolean): number {
    const { lines: n, state } = this;
    const drawn = state[2 * n] as number;
    let sum = 0;
    for (let k = 0; k < n; k++) {
      const at = c * n + k;
      const car = this.carW(step, k) * drawn;
      const P = state[k] as number;
      const Q = state[n + k] as number;
      const re =
        (model.mRe[at] as number) * P - (model.mIm[at] as number) * Q + (model.eRe[at] as number) * car;
      const im =
        (model.mIm[at] as number) * P + (model.mRe[at] as number) * Q + (model.eIm[at] as number) * car;
      sum += isReactive ? im : re;
    }
    return sum;
  }

  private expectation(): number {
    const { row, state, lines: n } = this;
    let sum = 0;
    for (let i = 0; i <= 2 * n; i++) sum += (row[i] as number) * (state[i] as number);
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
    const floor = CURRENT_FLOOR * model.scale;
    const unread = this.voltageIsRead || Number.isNaN(step.P[c] as number) ? 0 : UNREAD_VOLTAGE_VAR;
    const noise = floor * floor + (RANDOM_VAR + unread) * value * value + (resolution * resolution) / 12;
    before.set(state);
    for (let pass = 1; ; pass++) {
      row.fill(0);
      const ideal = this.addCurrentRows(model, step, c);
      if (value === 0 && ideal === 0) return censored(resolution);
      row[2 * n + 1 + c] = ideal;
      // Expectation of the linear model at the estimate from before this reading.
      let linear = ideal * (1 + (state[2 * n + 1 + c] as number));
      for (let i = 0; i < size; i++)
        linear += (row[i] as number) * ((before[i] as number) - (state[i] as number));
      if (pass === PASSES) {
        state.set(before);
        this.index = c;
        this.quantity = "I";
        return Math.min(this.update(value, linear, noise), censored(resolution));
      }
      const variance = this.project(noise);
      const factor = (value - linear) / variance;
      for (let i = 0; i < size; i++) state[i] = (before[i] as number) + (this.gain[i] as number) * factor;
    }
  }

  private addCurrentRows(model: ObservationModel, step: EvidenceStep, c: number): number {
    if (!model.sumsCurrents) return this.addCurrentRow(model, step, c);
    let sum = 0;
    for (let j = 0; j < this.lines; j++) sum += this.addCurrentRow(model, step, j);
    return sum;
  }

  /** Adds the gradient of |I′| of one channel to the row; returns |I′|. */
  private addCurrentRow(model: ObservationModel, step: EvidenceStep, c: number): number {
    const { lines: n, state, row } = this;
    const volts = this.volts[c] as number;
    const drawn = state[2 * n] as number;
    let re = 0;
    let im = 0;
    let carRe = 0;
    let carIm = 0;
    for (let k = 0; k < n; k++) {
      const at = c * n + k;
      const qr = model.qRe[at] as number;
      const qi = model.qIm[at] as number;
      const fr = model.fRe[at] as number;
      const fi = model.fIm[at] as number;
      const P = state[k] as number;
      const Q = state[n + k] as number;
      const car = this.carW(step, k);
      re += qr * P - qi * Q;
      im += qr * Q + qi * P;
      carRe += car * (fr - fi * CAR_TAN);
      carIm += car * (fi + fr * CAR_TAN);
    }
    re += carRe * drawn;
    im += carIm * drawn;
    const size = Math.sqrt(re * re + im * im);
    const ur = size > 1e-6 ? re / size : 1;
    const ui = size > 1e-6 ? im / size : 0;
    for (let k = 0; k < n; k++) {
      const at = c * n + k;
      const qr = model.qRe[at] as number;
      const qi = model.qIm[at] as number;
      plus(row, k, (ur * qr + ui * qi) / volts);
      plus(row, n + k, (ui * qr - ur * qi) / volts);
    }
    plus(row, 2 * n, (ur * carRe + ui * carIm) / volts);
    return size / volts;
  }

  /** A channel shows nothing: how likely its current is below the least it can show. */
  private below(model: ObservationModel, step: EvidenceStep, c: number): number {
    const { row } = this;
    row.fill(0);
    const expected = this.addCurrentRow(model, step, c);
    const variance = this.project(CURRENT_FLOOR * CURRENT_FLOOR);
    return logNormalCdf((model.floorA - expected) / Math.sqrt(variance));
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
    let expected = 0;
    for (let j = 0; j < n; j++) {
      if (j !== c && !model.sumsCurrents) continue;
      const read = step.V[j] as number;
      const volts = Number.isNaN(read) ? (this.volts[j] as number) * (model.voltage[j] as number) : read;
      const P = step.P[j] as number;
      const Q = step.Q[j] as number;
      if (Number.isNaN(P) || Number.isNaN(Q)) return 0;
      if (volts < 1) return logDensity(value, UNRELATED_A * UNRELATED_A);
      expected += Math.sqrt(P * P + Q * Q) / volts;
    }
    if (value === 0 && expected === 0) return censored(resolution);
    const relative = Number.isNaN(step.V[c] as number) ? 0.04 : 0.008;
    const most = relative * Math.max(value, expected);
    const floor = IDENTITY_FLOOR * model.scale;
    const variance = floor * floor + most * most + (resolution * resolution) / 12;
    return Math.min(logDensity(value - expected, variance), censored(resolution));
  }

  private clamp(model: ObservationModel, step: EvidenceStep, k: number, value: number): number {
    const expected = this.addClampRow(step, k);
    const hidden = model.hidesLoad ? HIDDEN_A : 0;
    this.index = k;
    this.quantity = "clamp";
    return this.update(value, expected, 0.2 ** 2 + (CLAMP_SD * value) ** 2 + hidden * hidden);
  }

  /** Makes the row of the true current of a line, as a clamp meter sees it; returns that current. */
  private addClampRow(step: EvidenceStep, k: number): number {
    const { lines: n, state, row } = this;
    const volts = this.volts[k] as number;
    const car = this.carW(step, k);
    const drawn = state[2 * n] as number;
    const re = (state[k] as number) + car * drawn;
    const im = (state[n + k] as number) + car * drawn * CAR_TAN;
    const size = Math.max(1, Math.sqrt(re * re + im * im));
    row.fill(0);
    row[k] = re / size / volts;
    row[n + k] = im / size / volts;
    row[2 * n] = ((re + im * CAR_TAN) * car) / size / volts;
    return size / volts;
  }

  /** Voltages are told apart by size only, once for all steps: they hardly change. */
  private voltages(model: ObservationModel, evidence: Evidence): number {
    if (!this.voltageIsRead) return 0;
    let sum = 0;
    for (let c = 0; c < this.lines; c++) {
      let total = 0;
      let count = 0;
      for (const step of evidence.steps) {
        const value = step.V[c] as number;
        if (Number.isNaN(value)) continue;
        total += value;
        count++;
      }
      if (count === 0) continue;
      const relative = model.voltage[c] as number;
      if (total === 0 && relative < 0.01) {
        sum += censored(evidence.resolution.V);
        continue;
      }
      const variance = model.voltageSdV ** 2 + (2 * relative) ** 2 + evidence.resolution.V ** 2;
      sum += logDensity(total / count - relative * SUPPLY_V, variance);
    }
    return sum;
  }

  /** A load that would have to be negative speaks against a hypothesis, unless power may flow back. */
  private noteLoad(k: number): void {
    const sd = Math.sqrt(this.covariance[k * this.size + k] as number);
    const z = (this.state[k] as number) / Math.max(sd, 1);
    if (z > 3) return;
    const factor = logNormalCdf(z) - this.logPositive;
    if (factor < this.leastLoad) this.leastLoad = factor;
  }

  /** Covariance times row into `gain`; returns the variance of the reading. */
  private project(noise: number): number {
    const { size, row, covariance, gain, touched } = this;
    gain.fill(0);
    for (let j = 0; j < size; j++) {
      const weight = row[j] as number;
      if (weight === 0) continue;
      const base = j * size;
      for (let i = 0; i < size; i++)
        gain[i] = (gain[i] as number) + weight * (covariance[base + i] as number);
    }
    let variance = noise;
    let count = 0;
    for (let i = 0; i < size; i++) {
      const weight = gain[i] as number;
      if (weight === 0) continue;
      touched[count++] = i;
      variance += weight * (row[i] as number);
    }
    this.touchedCount = count;
    return variance;
  }

  private update(value: number, expected: number, noise: number): number {
    const { size, covariance, state, gain, touched } = this;
    const variance = this.project(noise);
    const { touchedCount } = this;
    const innovation = value - expected;
    if (this.watcher !== null) {
      const { stepIndex: step, index, quantity } = this;
      this.watcher({ step, index, quantity, value, expected, variance });
    }
    const factor = innovation / variance;
    for (let a = 0; a < touchedCount; a++) {
      const i = touched[a] as number;
      const weight = gain[i] as number;
      state[i] = (state[i] as number) + weight * factor;
      const base = i * size;
      const scaled = weight / variance;
      for (let b = 0; b < touchedCount; b++) {
        const j = touched[b] as number;
        covariance[base + j] = (covariance[base + j] as number) - scaled * (gain[j] as number);
      }
    }
    return logDensity(innovation, variance);
  }
}

/** Relative standard deviations: what a car draws against its offer, its own meter, a known load, a clamp. */
const OFFERED_CAR_SD = 0.04;
const MEASURED_CAR_SD = 0.015;
const LOAD_SD = 0.06;
const LOAD_VAR_SD = 0.03;
const CLAMP_SD = 0.02;
/** Reactive over active power of a car, and of what a total hides. */
const CAR_TAN = 0.05;
const CAR_TAN_SD = 0.04;
const TYPICAL_TAN = 0.3;
const HIDDEN_A = 20;
/** A current beside no voltage and no power: it follows from neither. [A] */
const UNRELATED_A = 25;
/** Errors from reading to reading: relative (squared), and at the low end. [1], [W], [A] */
const RANDOM_VAR = 0.005 ** 2;
const POWER_FLOOR = 15;
const CURRENT_FLOOR = 0.08;
/** By how much one meter's own current, voltage and powers may disagree at the low end. [A] */
const IDENTITY_FLOOR = 0.02;
/** Relative, squared, of a supply whose voltage nobody read. */
const UNREAD_VOLTAGE_VAR = 0.02 ** 2;
const PASSES = 3;
/** No step makes a hypothesis likelier than this, as a logarithm. */
const BEST_STEP = 30;

const isSilent = (value: number): boolean => value === 0 || Number.isNaN(value);

/** True where the channel stays at one highest value, near the one beyond which it cannot go. */
function isClipped(model: ObservationModel, evidence: Evidence, c: number, value: number): boolean {
  let most = 0;
  let atMost = 0;
  for (const step of evidence.steps) most = Math.max(most, step.I[c] as number);
  for (const step of evidence.steps) if ((step.I[c] as number) > 0.995 * most) atMost++;
  return atMost > 1 && most > 0.5 * model.clipA && most < 1.5 * model.clipA && value > 0.995 * most;
}

function plus(array: Float64Array, index: number, value: number): void {
  array[index] = (array[index] as number) + value;
}

/** Voltage of each line as its channel shows it, where that is a supply's; the usual one elsewhere. [V] */
function lineVoltages({ lines, steps }: Evidence): Float64Array {
  return Float64Array.from({ length: lines }, (_, c) => {
    const read = steps.map((step) => step.V[c] as number).filter((value) => value > 200 && value < 265);
    return read.length === 0 ? SUPPLY_V : read.reduce((sum, value) => sum + value, 0) / read.length;
  });
}
