import type { Evidence, EvidenceStep } from "./evidence.ts";
import { LinearFilter } from "./linear-filter.ts";
import { SUPPLY_V } from "./load-scale.ts";
import type { ObservationModel } from "./observation-model.ts";
import { CAR_TAN, CAR_TAN_WANDER } from "./reading-errors.ts";
import { placesFor, type SitePlaces } from "./site-places.ts";

/**
 * What readings should be at the present estimate of the site, and how they answer to it.
 *
 * Each function returns the reading without the channel's own errors and adds its gradient to the
 * filter's row. Powers are linear in the building's; currents are a modulus and linear only nearby.
 */
export class ExpectedReadings {
  readonly places: SitePlaces;
  readonly filter: LinearFilter;
  readonly volts: Float64Array;
  readonly voltageIsRead: boolean;
  readonly lines: number;
  /** After {@link addPower}, the channel's reactive power where active was added, and the reverse. [var], [W] */
  twin = 0;

  constructor(evidence: Evidence) {
    this.lines = evidence.lines;
    this.places = placesFor(evidence.lines);
    this.filter = new LinearFilter(this.places.capacity);
    this.volts = lineVoltages(evidence);
    this.voltageIsRead = evidence.steps.some((step) => step.V.some((value) => !Number.isNaN(value)));
  }

  /** What the car should draw on a line. [W] */
  carW(step: EvidenceStep, k: number): number {
    return (step.carA[k] as number) * (this.volts[k] as number);
  }

  /** Share of that which it draws. */
  private carShare(model: ObservationModel, k: number): number {
    const { state } = this.filter;
    const common = state[this.places.carShare] as number;
    return model.carLineSd > 0 ? common + (state[this.places.carOnLine + k] as number) : common;
  }

  /** Adds a channel's active or reactive power to the row; returns it. [W], [var] */
  addPower(model: ObservationModel, step: EvidenceStep, c: number, isReactive: boolean): number {
    const { mRe, mIm, eRe, eIm } = model;
    return this.addPart(model, mRe, mIm, eRe, eIm, step, c, isReactive);
  }

  /** Adds the part of a channel's current in phase with its own line, or lagging it, per volt; returns it. [W] */
  addCurrentPart(model: ObservationModel, step: EvidenceStep, c: number, isReactive: boolean): number {
    const { qRe, qIm, fRe, fIm } = model;
    return this.addPart(model, qRe, qIm, fRe, fIm, step, c, isReactive);
  }

  private addPart(
    model: ObservationModel,
    buildingRe: readonly number[],
    buildingIm: readonly number[],
    carRe: readonly number[],
    carIm: readonly number[],
    step: EvidenceStep,
    c: number,
    isReactive: boolean,
  ): number {
    const { lines: n, places } = this;
    const { row, state } = this.filter;
    const tan = CAR_TAN + (state[places.carTan] as number);
    let sum = 0;
    let twin = 0;
    for (let k = 0; k < n; k++) {
      const at = c * n + k;
      const re = buildingRe[at] as number;
      const im = buildingIm[at] as number;
      if (re !== 0 || im !== 0) {
        const onP = isReactive ? im : re;
        const onQ = isReactive ? re : -im;
        const P = state[k] as number;
        const Q = state[n + k] as number;
        plus(row, k, onP);
        plus(row, n + k, onQ);
        sum += onP * P + onQ * Q;
        twin += isReactive ? re * P - im * Q : im * P + re * Q;
      }
      const full = this.carW(step, k);
      if (full === 0) continue;
      const er = carRe[at] as number;
      const ei = carIm[at] as number;
      const share = this.carShare(model, k);
      const perTan = full * (isReactive ? er : -ei);
      const perShare = full * (isReactive ? ei : er) + perTan * tan;
      twin += full * share * (isReactive ? er - ei * tan : ei + er * tan);
      plus(row, places.carShare, perShare);
      plus(row, places.carTan, perTan * share);
      if (model.carLineSd > 0) plus(row, places.carOnLine + k, perShare);
      sum += perShare * share;
    }
    this.twin = twin;
    return sum;
  }

  /** The same power without a gradient. */
  power(model: ObservationModel, step: EvidenceStep, c: number, isReactive: boolean): number {
    const { lines: n, places } = this;
    const { state } = this.filter;
    const tan = CAR_TAN + (state[places.carTan] as number);
    let sum = 0;
    for (let k = 0; k < n; k++) {
      const at = c * n + k;
      const re = model.mRe[at] as number;
      const im = model.mIm[at] as number;
      const P = state[k] as number;
      const Q = state[n + k] as number;
      sum += isReactive ? im * P + re * Q : re * P - im * Q;
      const full = this.carW(step, k);
      if (full === 0) continue;
      const er = model.eRe[at] as number;
      const ei = model.eIm[at] as number;
      sum += full * this.carShare(model, k) * (isReactive ? ei + er * tan : er - ei * tan);
    }
    return sum;
  }

  /** A car's phase angle is not quite the same in every step. [W²] */
  carAngleVariance(model: ObservationModel, step: EvidenceStep, c: number, isReactive: boolean): number {
    const { lines: n } = this;
    let sum = 0;
    for (let k = 0; k < n; k++) {
      const car = this.carW(step, k);
      if (car === 0) continue;
      const part = car * CAR_TAN_WANDER * ((isReactive ? model.eRe : model.eIm)[c * n + k] as number);
      sum += part * part;
    }
    return sum;
  }

  /** Adds the size of a channel's current, or of the sum the meter shows in its place; returns it. [A] */
  addShownCurrent(model: ObservationModel, step: EvidenceStep, c: number): number {
    if (!model.sumsCurrents) return this.addCurrent(model, step, c);
    let sum = 0;
    for (let j = 0; j < this.lines; j++) sum += this.addCurrent(model, step, j);
    return sum;
  }

  /** Adds the size of one channel's current; returns it. [A] */
  addCurrent(model: ObservationModel, step: EvidenceStep, c: number): number {
    const { lines: n, places } = this;
    const { row, state } = this.filter;
    const volts = this.volts[c] as number;
    const tan = CAR_TAN + (state[places.carTan] as number);
    let re = 0;
    let im = 0;
    for (let k = 0; k < n; k++) {
      const at = c * n + k;
      const qr = model.qRe[at] as number;
      const qi = model.qIm[at] as number;
      const P = state[k] as number;
      const Q = state[n + k] as number;
      re += qr * P - qi * Q;
      im += qr * Q + qi * P;
      const full = this.carW(step, k);
      if (full === 0) continue;
      const fr = model.fRe[at] as number;
      const fi = model.fIm[at] as number;
      const car = full * this.carShare(model, k);
      re += car * (fr - fi * tan);
      im += car * (fi + fr * tan);
    }
    const size = Math.sqrt(re * re + im * im);
    const ur = (size > 1e-6 ? re / size : 1) / volts;
    const ui = (size > 1e-6 ? im / size : 0) / volts;
    for (let k = 0; k < n; k++) {
      const at = c * n + k;
      const qr = model.qRe[at] as number;
      const qi = model.qIm[at] as number;
      if (qr !== 0 || qi !== 0) {
        plus(row, k, ur * qr + ui * qi);
        plus(row, n + k, ui * qr - ur * qi);
      }
      const full = this.carW(step, k);
      if (full === 0) continue;
      const fr = model.fRe[at] as number;
      const fi = model.fIm[at] as number;
      const perShare = full * (ur * (fr - fi * tan) + ui * (fi + fr * tan));
      plus(row, places.carShare, perShare);
      if (model.carLineSd > 0) plus(row, places.carOnLine + k, perShare);
      plus(row, places.carTan, full * this.carShare(model, k) * (ui * fr - ur * fi));
    }
    return size / volts;
  }

  /** Makes the row of the true current of a line, as a clamp meter sees it; returns that current. [A] */
  clamped(model: ObservationModel, step: EvidenceStep, k: number): number {
    const { lines: n, places } = this;
    const { row, state } = this.filter;
    const volts = this.volts[k] as number;
    const full = this.carW(step, k);
    const share = this.carShare(model, k);
    const tan = CAR_TAN + (state[places.carTan] as number);
    const re = (state[k] as number) + full * share;
    const im = (state[n + k] as number) + full * share * tan;
    const size = Math.max(1, Math.sqrt(re * re + im * im));
    row.fill(0);
    row[k] = re / size / volts;
    row[n + k] = im / size / volts;
    const perShare = ((re + im * tan) * full) / size / volts;
    row[places.carShare] = perShare;
    if (model.carLineSd > 0) row[places.carOnLine + k] = perShare;
    row[places.carTan] = (im * full * share) / size / volts;
    return size / volts;
  }
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
