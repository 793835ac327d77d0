/** Least and greatest that a time may truly have been, given when values were taken. [s] */
export type Between = readonly [leastS: number, mostS: number];

/** One stay of a line above its limit. */
export interface Excursion {
  /** First value above the limit. */
  readonly startS: number;
  /** First value back under it; the end of the trace where there is none. */
  readonly backS: number;
  /** Length with each value standing until the next. [s] */
  readonly heldS: number;
  /** Length as it may truly have been; Infinity where its beginning or its end was not seen. */
  readonly lengthS: Between;
  readonly peakA: number;
  /** Ampere-seconds above the limit, each value standing until the next. [A·s] */
  readonly overAs: number;
  /** Root mean square over the excursion. [A] */
  readonly rmsA: number;
  /** Of its length, how long the rest of the building was over the limit without the car. At least. [s] */
  readonly withoutCarS: number;
  readonly beganBefore: boolean;
  readonly isUnfinished: boolean;
  /** Places of its values in the trace, the second not included. */
  readonly from: number;
  readonly to: number;
}

/** What is above a limit by its last binary digit only is not above it. */
export const justOver = (limitA: number): number => limitA + 1e-9 * Math.max(1, Math.abs(limitA));

/**
 * Every stay of a current above a limit, in the order of time.
 *
 * A line's own value stands until its next; values that are NaN are passed over. An excursion truly began
 * after the last value under the limit and ended before the first one under it again.
 *
 * @param trace.timesS Times, rising. [s]
 * @param trace.currentA Current of one line at those times. [A]
 * @param trace.carA Current of the charge points on the same line; null where it was not recorded. [A]
 * @param limitA [A], 0 or more
 */
export function excursionsOf(
  trace: {
    readonly timesS: Float64Array;
    readonly currentA: Float64Array;
    readonly carA: Float64Array | null;
  },
  limitA: number,
): readonly Excursion[] {
  const { timesS, currentA, carA } = trace;
  const threshold = justOver(limitA);
  const found: Excursion[] = [];
  const count = timesS.length;
  let lastUnderS = Number.NEGATIVE_INFINITY;
  for (let i = 0; i < count; i++) {
    if (!((currentA[i] as number) > threshold)) {
      if (!Number.isNaN(currentA[i])) lastUnderS = timesS[i] as number;
      continue;
    }
    const from = i;
    const startS = timesS[i] as number;
    let [at, lastOverS] = [i, startS];
    let [peakA, overAs, squares, withoutCarS] = [0, 0, 0, 0];
    let isOver = true;
    while (isOver && at < count) {
      const value = currentA[at] as number;
      let next = at + 1;
      while (next < count && Number.isNaN(currentA[next])) next++;
      const standsS =
        (next < count ? (timesS[next] as number) : (timesS[count - 1] as number)) - (timesS[at] as number);
      lastOverS = timesS[at] as number;
      if (value > peakA) peakA = value;
      overAs += (value - limitA) * standsS;
      squares += value * value * standsS;
      if (value - (carA?.[at] ?? Number.NaN) > threshold) withoutCarS += standsS;
      at = next;
      isOver = at < count && (currentA[at] as number) > threshold;
    }
    const isUnfinished = at >= count;
    const backS = timesS[Math.min(at, count - 1)] as number;
    const heldS = backS - startS;
    found.push({
      startS,
      backS,
      heldS,
      lengthS: [lastOverS - startS, isUnfinished ? Number.POSITIVE_INFINITY : backS - lastUnderS],
      peakA,
      overAs,
      rmsA: heldS > 0 ? Math.sqrt(squares / heldS) : peakA,
      withoutCarS,
      beganBefore: lastUnderS === Number.NEGATIVE_INFINITY,
      isUnfinished,
      from,
      to: at,
    });
    i = at - 1;
  }
  return found;
}

/** The larger by some measure; null where there is none. The first of equals. */
export const greatest = <T>(items: readonly T[], of: (item: T) => number): T | null =>
  items.reduce<T | null>((best, item) => (best === null || of(item) > of(best) ? item : best), null);
