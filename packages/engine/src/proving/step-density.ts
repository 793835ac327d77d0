import { isClipped, isSilent } from "./channel-range.ts";
import { censored } from "./densities.ts";
import type { Evidence, EvidenceStep } from "./evidence.ts";
import type { ExpectedReadings } from "./expected-readings.ts";
import { MostDensity } from "./most-density.ts";
import type { ObservationModel } from "./observation-model.ts";
import {
  CLAMP_FLOOR,
  CLAMP_SD,
  CURRENT_FLOOR,
  HIDDEN_A,
  IDENTITY_FLOOR,
  POWER_FLOOR,
  RANDOM_VAR,
  TYPICAL_TAN,
  UNREAD_VOLTAGE_VAR,
  UNRELATED_A,
} from "./reading-errors.ts";

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

/** Weighs the readings of one step, one after another, and lets each move the estimate of the site. */
export class StepDensity {
  watcher: ReadingWatcher | null = null;
  /** Per loose terminal of the hypothesis: whether it is bad in this step. */
  readonly isBad: boolean[] = [false, false];
  private readonly before: Float64Array;
  private readonly most = new MostDensity();
  private stepIndex = 0;

  constructor(private readonly expected: ExpectedReadings) {
    this.before = new Float64Array(expected.places.capacity);
  }

  /**
   * Logarithm of the density of a step's readings, given all before them; −∞ as soon as it must end below
   * `least`.
   */
  of(model: ObservationModel, evidence: Evidence, stepIndex: number, least: number): number {
    const { lines: n } = this.expected;
    const { resolution } = evidence;
    const step = evidence.steps[stepIndex] as EvidenceStep;
    const most = this.most.of(model, evidence, stepIndex);
    this.stepIndex = stepIndex;
    let sum = 0;
    /** What the readings still to come may add at most. */
    let rest = most.totalsAndClamps;
    // What moves nothing comes first: most hypotheses are given up before an estimate has moved.
    for (let c = 0; c < n; c++) {
      rest += (most.P[c] as number) + (most.Q[c] as number);
      if (isIdentity(model, evidence, step, c))
        sum += this.identity(model, step, c, step.I[c] as number, resolution.I);
      else {
        rest += most.I[c] as number;
        sum += this.overApparent(model, evidence, step, c);
      }
    }
    if (sum + rest < least) return Number.NEGATIVE_INFINITY;
    let powerMissing = false;
    for (let c = 0; c < n; c++) {
      const P = step.P[c] as number;
      const Q = step.Q[c] as number;
      const I = step.I[c] as number;
      const hasP = !Number.isNaN(P);
      const hasI = !Number.isNaN(I);
      if (!hasP) powerMissing = true;
      const isSilentChannel = isSilent(model, step, c);
      if (isSilentChannel || isClipped(model, evidence, step, c)) {
        rest -= (most.P[c] as number) + (most.Q[c] as number) + (most.I[c] as number);
        sum += (most.P[c] as number) + (most.Q[c] as number) + (most.I[c] as number);
        if (isSilentChannel) sum += this.below(model, step, c);
        continue;
      }
      if (hasI && I < model.floorA) sum += this.overFloor(model, I);
      if (hasP) {
        rest -= most.P[c] as number;
        sum += this.power(model, step, c, P, false, resolution.P, least - sum - rest);
        if (sum + rest < least) return Number.NEGATIVE_INFINITY;
      }
      if (!Number.isNaN(Q)) {
        rest -= most.Q[c] as number;
        sum += this.power(model, step, c, Q, true, resolution.Q, least - sum - rest);
        if (sum + rest < least) return Number.NEGATIVE_INFINITY;
      }
      if (!hasI || isIdentity(model, evidence, step, c)) continue;
      rest -= most.I[c] as number;
      sum += this.current(model, step, c, I, resolution.I);
      if (sum + rest < least) return Number.NEGATIVE_INFINITY;
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

  /** Ratio a channel shows, errors and a loose terminal in it, over what its hypothesis says; fills the row. */
  private addGain(model: ObservationModel, c: number, ideal: number): number {
    const { filter, places } = this.expected;
    filter.row[places.gain + c] = ideal;
    let gain = 1 + (filter.state[places.gain + c] as number);
    for (let index = 0; index < model.loose.length; index++) {
      if (model.loose[index] !== c || !this.isBad[index]) continue;
      filter.row[places.loose + index] = ideal;
      gain += filter.state[places.loose + index] as number;
    }
    return gain;
  }

  private take(
    quantity: WatchedReading["quantity"],
    index: number,
    value: number,
    expected: number,
    noise: number,
    least = Number.NEGATIVE_INFINITY,
  ): number {
    const { filter } = this.expected;
    const { watcher, stepIndex: step } = this;
    if (watcher !== null)
      watcher({ step, index, quantity, value, expected, variance: filter.project(noise) });
    return filter.update(value, expected, noise, least);
  }

  /** One channel's active power, or its reactive power. */
  private power(
    model: ObservationModel,
    step: EvidenceStep,
    c: number,
    value: number,
    isReactive: boolean,
    resolution: number,
    least: number,
  ): number {
    const { expected } = this;
    const { filter, places } = expected;
    const { row, state } = filter;
    row.fill(0);
    const ideal = expected.addPower(model, step, c, isReactive);
    const { twin } = expected;
    if (value === 0 && ideal === 0) return censored(resolution);
    // The errors of ratio and angle act on what the channel is expected to carry.
    const angle = places.angle + c;
    const gain = this.addGain(model, c, ideal);
    row[angle] = isReactive ? -twin : twin;
    const shown = ideal * gain + (row[angle] as number) * (state[angle] as number);
    const floor = POWER_FLOOR * model.scale;
    const noise =
      floor * floor +
      RANDOM_VAR * (value * value + twin * twin) +
      (resolution * resolution) / 12 +
      expected.carAngleVariance(model, step, c, isReactive);
    const quantity = isReactive ? "Q" : "P";
    return Math.min(this.take(quantity, c, value, shown, noise, least), censored(resolution));
  }

  private totalPower(
    model: ObservationModel,
    step: EvidenceStep,
    value: number,
    isReactive: boolean,
    resolution: number,
  ): number {
    const { expected } = this;
    const { lines: n, filter } = expected;
    if (value === 0 && model.floorA > 0) {
      let sum = censored(resolution);
      for (let c = 0; c < n; c++) sum += this.below(model, step, c);
      return sum;
    }
    filter.row.fill(0);
    const floor = POWER_FLOOR * model.scale;
    let noise = floor * floor + RANDOM_VAR * value * value + (resolution * resolution) / 12;
    let shown = 0;
    let isDead = true;
    for (let c = 0; c < n; c++) {
      const share = expected.addPower(model, step, c, isReactive);
      if (share !== 0) isDead = false;
      shown += share * this.addGain(model, c, share);
      const turned = (model.angleSd[c] as number) * TYPICAL_TAN * share;
      noise += turned * turned + expected.carAngleVariance(model, step, c, isReactive);
    }
    if (value === 0 && isDead) return censored(resolution);
    return Math.min(
      this.take(isReactive ? "total Q" : "total P", 0, value, shown, noise),
      censored(resolution),
    );
  }

  /** A channel's current where its powers are not both read: a modulus, linearised and repeated. */
  private current(
    model: ObservationModel,
    step: EvidenceStep,
    c: number,
    value: number,
    resolution: number,
  ): number {
    const { expected, before } = this;
    const { filter } = expected;
    const { row, state, gain: towards, size } = filter;
    const floor = CURRENT_FLOOR * model.scale;
    const unread = expected.voltageIsRead || Number.isNaN(step.P[c] as number) ? 0 : UNREAD_VOLTAGE_VAR;
    const noise = floor * floor + (RANDOM_VAR + unread) * value * value + (resolution * resolution) / 12;
    before.set(state);
    for (let pass = 1; ; pass++) {
      row.fill(0);
      const ideal = expected.addShownCurrent(model, step, c);
      if (value === 0 && ideal === 0) return censored(resolution);
      // Expectation of the linear model at the estimate from before this reading.
      let linear = ideal * this.addGain(model, c, ideal);
      for (let i = 0; i < size; i++)
        linear += (row[i] as number) * ((before[i] as number) - (state[i] as number));
      const variance = filter.project(noise);
      const innovation = value - linear;
      // Near enough that the gradient there is the gradient here.
      if (pass === PASSES || innovation * innovation < NEAR * variance) {
        state.set(before);
        return Math.min(this.take("I", c, value, linear, noise), censored(resolution));
      }
      const factor = innovation / variance;
      for (let i = 0; i < size; i++) state[i] = (before[i] as number) + (towards[i] as number) * factor;
    }
  }

  /** A channel shows nothing: its current lies anywhere in a disc as wide as the least it can show. */
  private below(model: ObservationModel, step: EvidenceStep, c: number): number {
    const { expected } = this;
    const { filter } = expected;
    const radius = model.floorA * (expected.volts[c] as number);
    const { misfit } = filter;
    let sum = Math.log(Math.PI * radius * radius);
    let square = 0;
    for (const isReactive of [false, true]) {
      filter.row.fill(0);
      const shown = expected.addCurrentPart(model, step, c, isReactive);
      // The variance of either part of a point drawn evenly from a disc.
      sum += filter.update(0, shown, (radius * radius) / 4);
      square += shown * shown;
    }
    // Anywhere inside the disc fits.
    filter.misfit = misfit + (Math.max(0, Math.sqrt(square) / radius - 1) / FLOOR_SD) ** 2;
    return Math.min(0, sum);
  }

  /** A current shown though it is less than the least that can be. */
  private overFloor({ floorA }: ObservationModel, value: number): number {
    const misfit = ((floorA - value) / (FLOOR_SD * floorA)) ** 2;
    this.expected.filter.misfit += misfit;
    return -0.5 * misfit;
  }

  /** Current, voltage and powers of one channel must agree whatever the site does. */
  private identity(
    model: ObservationModel,
    step: EvidenceStep,
    c: number,
    value: number,
    resolution: number,
  ): number {
    const { lines: n, volts: supply, filter } = this.expected;
    let shown = 0;
    for (let j = 0; j < n; j++) {
      if (j !== c && !model.sumsCurrents) continue;
      const read = step.V[j] as number;
      const volts = Number.isNaN(read) ? (supply[j] as number) * (model.voltage[j] as number) : read;
      const P = step.P[j] as number;
      const Q = step.Q[j] as number;
      if (Number.isNaN(P) || Number.isNaN(Q)) return 0;
      if (volts < 1) return filter.weighed(value, UNRELATED_A * UNRELATED_A);
      shown += Math.sqrt(P * P + Q * Q) / volts;
    }
    if (value === 0 && shown === 0) return censored(resolution);
    const relative = Number.isNaN(step.V[c] as number) ? 0.04 : IDENTITY_SD;
    const most = relative * Math.max(value, shown);
    const floor = IDENTITY_FLOOR * model.scale;
    const variance = floor * floor + most * most + (resolution * resolution) / 12;
    return Math.min(filter.weighed(value - shown, variance), censored(resolution));
  }

  /**
   * Vars not read: whatever they are, P is at most V · I. Only what lies beyond the errors of the readings counts;
   * within them, the current itself is weighed.
   */
  private overApparent(model: ObservationModel, evidence: Evidence, step: EvidenceStep, c: number): number {
    const I = step.I[c] as number;
    const V = step.V[c] as number;
    const P = step.P[c] as number;
    if (!Number.isNaN(step.Q[c]) || Number.isNaN(P) || Number.isNaN(I) || !(V >= 1)) return 0;
    if (model.sumsCurrents || !model.hasPower[c]) return 0;
    if (isSilent(model, step, c) || isClipped(model, evidence, step, c)) return 0;
    const least = Math.abs(P) / V;
    const floor = IDENTITY_FLOOR * model.scale;
    const sd = Math.hypot(floor, IDENTITY_SD * Math.max(I, least), evidence.resolution.I);
    const excess = (least - I) / sd - BEYOND;
    if (excess <= 0) return 0;
    this.expected.filter.misfit += excess * excess;
    return -0.5 * excess * excess;
  }

  private clamp(model: ObservationModel, step: EvidenceStep, k: number, value: number): number {
    const shown = this.expected.clamped(model, step, k);
    return this.take("clamp", k, value, shown, clampVariance(model, value));
  }
}

/** Whether a channel's current follows from its voltage and powers, and so says nothing of the site. */
const isIdentity = (model: ObservationModel, evidence: Evidence, step: EvidenceStep, c: number): boolean =>
  (model.hasPower[c] as boolean) &&
  !Number.isNaN(step.P[c]) &&
  !Number.isNaN(step.Q[c]) &&
  !Number.isNaN(step.I[c]) &&
  !isSilent(model, step, c) &&
  !isClipped(model, evidence, step, c);

/** [A²] */
export const clampVariance = (model: ObservationModel, valueA: number): number =>
  CLAMP_FLOOR ** 2 + (CLAMP_SD * valueA) ** 2 + (model.hidesLoad ? HIDDEN_A ** 2 : 0);

/** How well current, voltage and powers of one channel agree, relative. */
const IDENTITY_SD = 0.008;
/** Standard deviations within which errors alone may make P more than V · I: one reading in a million beyond. */
const BEYOND = 5;
const PASSES = 3;
/** A current that lies within half a standard deviation needs no second gradient. [1] */
const NEAR = 0.25;
/** How sharp the least current a channel shows is, relative. */
const FLOOR_SD = 0.05;
