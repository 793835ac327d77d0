/**
 * Series of numbers as plots take them. NaN means that nothing was recorded; what is infinite or beyond any
 * quantity met on a supply cannot be drawn and is counted with the absent.
 *
 * @module
 */
export type Samples = ArrayLike<number>;

/** Beyond this size a number is a mistake, and a scale that held it would show nothing else. */
const MAX_SIZE = 1e12;

/** The number if it can be drawn, else null. */
export const drawable = (value: number | null | undefined): number | null =>
  value !== null && value !== undefined && Math.abs(value) <= MAX_SIZE ? value : null;

export const sampleAt = (samples: Samples, index: number): number | null => drawable(samples[index]);

/** All that can be drawn, in order. */
export function present(samples: Samples): Float64Array {
  const values = new Float64Array(samples.length);
  let count = 0;
  for (let index = 0; index < samples.length; index++) {
    const value = sampleAt(samples, index);
    if (value !== null) values[count++] = value;
  }
  return values.subarray(0, count);
}

export interface Extent {
  readonly min: number;
  readonly max: number;
}

/** Smallest and largest of all that can be drawn; null where nothing can. */
export function extentOf(all: readonly Samples[]): Extent | null {
  let min = Number.POSITIVE_INFINITY;
  let max = Number.NEGATIVE_INFINITY;
  for (const samples of all) {
    for (let index = 0; index < samples.length; index++) {
      const value = sampleAt(samples, index);
      if (value === null) continue;
      if (value < min) min = value;
      if (value > max) max = value;
    }
  }
  return min <= max ? { min, max } : null;
}

/** Place of the largest, the first of equals; -1 where nothing can be drawn. */
export function indexOfMax(samples: Samples): number {
  let best = -1;
  let max = Number.NEGATIVE_INFINITY;
  for (let index = 0; index < samples.length; index++) {
    const value = sampleAt(samples, index);
    if (value === null || value <= max) continue;
    max = value;
    best = index;
  }
  return best;
}

export function countWhere(samples: Samples, test: (value: number) => boolean): number {
  let count = 0;
  for (let index = 0; index < samples.length; index++) {
    const value = sampleAt(samples, index);
    if (value !== null && test(value)) count++;
  }
  return count;
}

export function meanOf(samples: Samples): number | null {
  const values = present(samples);
  return values.length === 0 ? null : values.reduce((sum, value) => sum + value, 0) / values.length;
}

/**
 * Runs of neighbours made one, so that a long series fits a narrow drawing. The largest of a run stays the
 * largest; a run in which nothing was recorded is null.
 */
export function merged(
  samples: Samples,
  run: { readonly length: number; readonly count: number },
  kind: "mean" | "max",
): readonly (number | null)[] {
  return Array.from({ length: run.count }, (_, place) => {
    let sum = 0;
    let max = Number.NEGATIVE_INFINITY;
    let count = 0;
    for (let index = place * run.length; index < (place + 1) * run.length; index++) {
      const value = sampleAt(samples, index);
      if (value === null) continue;
      sum += value;
      if (value > max) max = value;
      count++;
    }
    return count === 0 ? null : kind === "mean" ? sum / count : max;
  });
}

/** Runs that bring a series of `length` down to at most `maxCount` places. */
export function runsFor(
  length: number,
  maxCount: number,
): { readonly length: number; readonly count: number } {
  const run = Math.max(1, Math.ceil(length / maxCount));
  return { length: run, count: Math.ceil(length / run) };
}
