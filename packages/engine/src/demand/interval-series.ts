/**
 * A recording of current at regular intervals, one line of the supply.
 *
 * An interval nobody recorded is NaN, never zero, and is left out of every count.
 */
export interface IntervalSeries {
  readonly intervalS: number;
  /** Mean current of each interval. [A] */
  readonly currentA: Float64Array;
}

/** What a series says of the demand it recorded. */
export interface SeriesSummary {
  readonly maximumA: number;
  readonly presentCount: number;
  readonly absentCount: number;
  /** Length of what was recorded. [days] */
  readonly presentDays: number;
}

/** Summarises a series; null when no interval of it was recorded. */
export function summarise(series: IntervalSeries): SeriesSummary | null {
  let [maximumA, presentCount] = [Number.NEGATIVE_INFINITY, 0];
  for (const current of series.currentA) {
    if (Number.isNaN(current)) continue;
    presentCount++;
    if (current > maximumA) maximumA = current;
  }
  if (presentCount === 0) return null;
  return {
    maximumA,
    presentCount,
    absentCount: series.currentA.length - presentCount,
    presentDays: (presentCount * series.intervalS) / 86_400,
  };
}

/** Intervals whose current is above a threshold. */
export function countAbove(series: IntervalSeries, thresholdA: number): number {
  let count = 0;
  for (const current of series.currentA) if (current > thresholdA) count++;
  return count;
}

/**
 * The same recording in longer intervals: the mean of what is present in each.
 *
 * An interval with nothing present stays absent; a last incomplete one is left out.
 *
 * @param factor Intervals to take together, a whole number.
 */
export function averaged(series: IntervalSeries, factor: number): IntervalSeries {
  const currentA = new Float64Array(Math.floor(series.currentA.length / factor));
  for (let block = 0; block < currentA.length; block++) {
    let [sum, count] = [0, 0];
    for (let index = block * factor; index < (block + 1) * factor; index++) {
      const current = series.currentA[index] as number;
      if (Number.isNaN(current)) continue;
      sum += current;
      count++;
    }
    currentA[block] = count === 0 ? Number.NaN : sum / count;
  }
  return { intervalS: series.intervalS * factor, currentA };
}
