/**
 * How high a minute may stand above a mean over a longer time.
 *
 * A half-hour's mean says little of the minute inside it: three minutes of a kettle add a tenth of its power to
 * the mean. So the peak is never one number here but a band, from what is certain to what has been seen.
 *
 * `existing-demand.ts` uses the seen band for the demand of a job; this module says the whole of it.
 *
 * @module
 */
import { EngineError, requireInRange } from "../quantities/index.ts";
import type { Citation } from "../worked/index.ts";
import type { PeakRatioTable } from "./existing-demand.ts";
import { averaged, type IntervalSeries } from "./interval-series.ts";

/** Where the highest minute behind a highest mean may lie, on three grounds. [A] */
export interface HiddenPeak {
  /** By arithmetic alone, where nothing flows back: at least the mean, at most all of it in one minute. */
  readonly certain: { readonly lowA: number; readonly highA: number };
  /** Between the least and the greatest ratio of the days that were measured. */
  readonly seen: { readonly lowA: number; readonly highA: number };
  /** On half of those days, and in their middle. */
  readonly usual: { readonly lowA: number; readonly middleA: number; readonly highA: number };
  /** The high end of what was seen with a short load on top that those days did not have; null without one. */
  readonly withShortLoadA: number | null;
  /** Where the ratios come from. */
  readonly citation: Citation;
}

/** How many times as high as the mean the highest minute behind it may be, on three grounds. [1] */
export interface HiddenPeakRatios {
  readonly certain: { readonly low: number; readonly high: number };
  readonly seen: { readonly low: number; readonly high: number };
  readonly usual: { readonly low: number; readonly middle: number; readonly high: number };
  readonly citation: Citation;
}

/**
 * The ratios of an averaging time; one between two of the table takes the longer one's.
 *
 * @param averagingMin Time each mean is taken over. [min], 1 to the longest in the table
 * @throws EngineError OUT_OF_DOMAIN outside this range.
 */
export function hiddenPeakRatios(averagingMin: number, table: PeakRatioTable): HiddenPeakRatios {
  requireInRange("averagingMin", averagingMin, 1, table.rows.at(-1)?.[0] ?? 1);
  const row = table.rows.find(([minutes]) => minutes >= averagingMin);
  if (row === undefined)
    throw new EngineError("OUT_OF_DOMAIN", "The table of peak ratios is empty. Give it rows.");
  const [, low, high, lowerQuartile, median, upperQuartile] = row;
  return {
    certain: { low: 1, high: averagingMin },
    seen: { low, high },
    usual: { low: lowerQuartile, middle: median, high: upperQuartile },
    citation: table.citation,
  };
}

/**
 * The band of the one-minute peak behind a highest mean.
 *
 * @param recorded.highestMeanA Highest mean of the recording. [A], 0 to 10 000
 * @param recorded.averagingMin Time each mean is taken over. [min], 1 to the longest in the table
 * @param recorded.shortLoadA Current of the largest short load that the measured days lack, such as an electric
 *   shower: it is added in full. [A], 0 to 1000
 * @throws EngineError OUT_OF_DOMAIN outside these ranges.
 */
export function hiddenPeak(
  recorded: { readonly highestMeanA: number; readonly averagingMin: number; readonly shortLoadA?: number },
  table: PeakRatioTable,
): HiddenPeak {
  const { highestMeanA, averagingMin, shortLoadA } = recorded;
  requireInRange("highestMeanA", highestMeanA, 0, 10_000);
  if (shortLoadA !== undefined) requireInRange("shortLoadA", shortLoadA, 0, 1000);
  const { certain, seen, usual, citation } = hiddenPeakRatios(averagingMin, table);
  return {
    certain: { lowA: highestMeanA * certain.low, highA: highestMeanA * certain.high },
    seen: { lowA: highestMeanA * seen.low, highA: highestMeanA * seen.high },
    usual: {
      lowA: highestMeanA * usual.low,
      middleA: highestMeanA * usual.middle,
      highA: highestMeanA * usual.high,
    },
    withShortLoadA: shortLoadA === undefined ? null : highestMeanA * seen.high + shortLoadA,
    citation,
  };
}

/**
 * Day by day, the highest interval over the highest mean of several.
 *
 * @param factor Intervals to a mean, a whole number that divides a day.
 * @returns One ratio for each whole day in which something was recorded and flowed.
 */
export function dailyPeakRatios(series: IntervalSeries, factor: number): readonly number[] {
  const perDay = 86_400 / series.intervalS;
  const means = averaged(series, factor);
  const dayCount = Math.floor(series.currentA.length / perDay);
  return Array.from({ length: dayCount }, (_, day) => {
    const highestA = highest(series.currentA, day * perDay, perDay);
    return highestA / highest(means.currentA, (day * perDay) / factor, perDay / factor);
  }).filter((ratio) => Number.isFinite(ratio));
}

function highest(valuesA: Float64Array, from: number, count: number): number {
  let mostA = Number.NEGATIVE_INFINITY;
  for (let index = from; index < from + count; index++) {
    const value = valuesA[index] as number;
    if (value > mostA) mostA = value;
  }
  return mostA;
}

/**
 * The unbroken runs above a threshold, each by its number of intervals. An absent interval ends a run: what
 * nobody recorded is not said to have been above anything.
 */
export function runsAbove(series: IntervalSeries, thresholdA: number): readonly number[] {
  const runs: number[] = [];
  let length = 0;
  for (const current of series.currentA) {
    if (current > thresholdA) length++;
    else if (length > 0) {
      runs.push(length);
      length = 0;
    }
  }
  if (length > 0) runs.push(length);
  return runs;
}
