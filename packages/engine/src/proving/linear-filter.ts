import { logDensity } from "./densities.ts";

/** Where a row of the lower triangle begins. */
const triangle = (row: number): number => (row * (row + 1)) >> 1;

/** An estimate with its covariance, kept aside. */
export interface KeptEstimate {
  readonly state: Float64Array;
  readonly covariance: Float64Array;
  misfit: number;
}

/**
 * A Kalman filter that takes one reading after another.
 *
 * Only the first `size` places of the state are in use. The covariance is symmetric: its lower triangle
 * is kept, row after row. Every array is made once; nothing is allocated while readings are weighed.
 */
export class LinearFilter {
  readonly capacity: number;
  size: number;
  /** Sum over all readings taken in: square of how far each lay from what was expected, over its variance. */
  misfit = 0;
  readonly state: Float64Array;
  readonly covariance: Float64Array;
  /** How the reading at hand answers to each place of the state. */
  readonly row: Float64Array;
  /** Covariance times row, of the last reading projected. */
  readonly gain: Float64Array;
  /** Places of the state that the last projected reading bears on. */
  private readonly touched: Int32Array;
  private touchedCount = 0;

  constructor(capacity: number) {
    this.capacity = capacity;
    this.size = capacity;
    this.state = new Float64Array(capacity);
    this.covariance = new Float64Array(triangle(capacity));
    this.row = new Float64Array(capacity);
    this.gain = new Float64Array(capacity);
    this.touched = new Int32Array(capacity);
  }

  /** Forgets everything: all zero, nothing uncertain. */
  reset(size: number): void {
    this.size = size;
    this.state.fill(0);
    this.covariance.fill(0);
  }

  keepsake(): KeptEstimate {
    return {
      state: new Float64Array(this.capacity),
      covariance: new Float64Array(triangle(this.capacity)),
      misfit: 0,
    };
  }

  keep(kept: KeptEstimate): void {
    kept.state.set(this.state);
    kept.covariance.set(this.covariance);
    kept.misfit = this.misfit;
  }

  restore({ state, covariance, misfit }: KeptEstimate): void {
    this.state.set(state);
    this.covariance.set(covariance);
    this.misfit = misfit;
  }

  variance(place: number): number {
    return this.covariance[triangle(place) + place] as number;
  }

  setVariance(place: number, variance: number): void {
    this.covariance[triangle(place) + place] = variance;
  }

  addVariance(place: number, variance: number): void {
    const at = triangle(place) + place;
    this.covariance[at] = (this.covariance[at] as number) + variance;
  }

  setCovariance(a: number, b: number, covariance: number): void {
    this.covariance[triangle(Math.max(a, b)) + Math.min(a, b)] = covariance;
  }

  /** Covariance times row into `gain`; returns the variance of the reading. */
  project(noise: number): number {
    const { size, row, covariance, gain, touched } = this;
    for (let i = 0; i < size; i++) gain[i] = 0;
    for (let j = 0; j < size; j++) {
      const weight = row[j] as number;
      if (weight === 0) continue;
      const base = triangle(j);
      for (let i = 0; i <= j; i++) gain[i] = (gain[i] as number) + weight * (covariance[base + i] as number);
      for (let i = j + 1, at = base + j + i; i < size; i++, at += i)
        gain[i] = (gain[i] as number) + weight * (covariance[at] as number);
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

  /** Takes a reading in, unless its density falls below `least`; returns the logarithm of its density. */
  update(value: number, expected: number, noise: number, least = Number.NEGATIVE_INFINITY): number {
    const variance = this.project(noise);
    const { covariance, state, gain, touched, touchedCount } = this;
    const innovation = value - expected;
    const density = this.weighed(innovation, variance);
    if (density < least) return density;
    const factor = innovation / variance;
    for (let a = 0; a < touchedCount; a++) {
      const i = touched[a] as number;
      const weight = gain[i] as number;
      state[i] = (state[i] as number) + weight * factor;
      const base = triangle(i);
      const scaled = weight / variance;
      for (let b = 0; b <= a; b++) {
        const j = touched[b] as number;
        covariance[base + j] = (covariance[base + j] as number) - scaled * (gain[j] as number);
      }
    }
    return density;
  }

  /** The logarithm of the density of a reading that moves nothing; its misfit is counted. */
  weighed(difference: number, variance: number): number {
    this.misfit += (difference * difference) / variance;
    return logDensity(difference, variance);
  }
}
