/**
 * One step of a test as numbers: what was done, and what was read. NaN = not read. Index = line − 1.
 */
export interface EvidenceStep {
  /** Current the car should draw on each line. [A] */
  readonly carA: readonly number[];
  /** Power of loads of known size switched on, on each line. [W] */
  readonly loadW: readonly number[];
  /** False once generation is known to be off or absent. */
  readonly mayExport: boolean;
  readonly V: readonly number[];
  readonly I: readonly number[];
  readonly P: readonly number[];
  readonly Q: readonly number[];
  readonly totalP: number;
  readonly totalQ: number;
  /** Clamp-meter readings of the main fuse's current on each line. [A] */
  readonly clampA: readonly number[];
}

/** Steps in order, with the least digit of each kind of reading. */
export interface Evidence {
  readonly lines: 1 | 3;
  readonly steps: readonly EvidenceStep[];
  readonly resolution: { readonly V: number; readonly I: number; readonly P: number; readonly Q: number };
  /** True when the car's own current was read, so that its power is known better than by what was offered. */
  readonly carIsMeasured: boolean;
}
