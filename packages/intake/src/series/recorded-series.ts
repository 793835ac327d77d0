import { type IntervalSeries, type Line, requireInRange } from "@underfuse/engine";
import { ABSENT, ESTIMATED, LEFT_OUT, QUALITIES, QUESTIONABLE, RECORDED } from "./quality.ts";
import type { SeriesUnit } from "./unit.ts";

/**
 * A recording as imported: equal intervals from one instant on, each with its value and its quality.
 *
 * Import is positive, energy sent out negative.
 */
export interface RecordedSeries {
  /** Start of the first interval, UTC. [ms since 1970] */
  readonly startMs: number;
  /** Length of an interval. [s] */
  readonly stepS: number;
  /** kWh of the interval, mean W of it, or mean A of it. */
  readonly unit: SeriesUnit;
  /** One for the whole supply, or one for each line that was recorded. */
  readonly channels: readonly RecordedChannel[];
}

export interface RecordedChannel {
  /** Null where the value is that of all lines together. */
  readonly line: Line | null;
  /** For a current of no named line: whether it is that of one line, or the same on each of three. */
  readonly onLines?: 1 | 3;
  /** One an interval; NaN where there is none. */
  readonly values: Float64Array;
  /** One an interval, as its place in QUALITIES. */
  readonly quality: Uint8Array;
  /** Readings that stood twice alike, of which one was dropped. */
  readonly duplicateCount: number;
}

/** How much of a recording is there. Counts of intervals; they add up to `intervalCount`. */
export interface Coverage {
  readonly intervalCount: number;
  readonly recordedCount: number;
  readonly estimatedCount: number;
  readonly questionableCount: number;
  readonly absentCount: number;
  readonly leftOutCount: number;
  /** Readings dropped because they stood twice; not intervals. */
  readonly duplicateCount: number;
}

export function coverageOf({ values, quality, duplicateCount }: RecordedChannel): Coverage {
  const counts = new Uint32Array(QUALITIES.length);
  for (const mark of quality) counts[mark] = (counts[mark] as number) + 1;
  return {
    intervalCount: values.length,
    recordedCount: counts[RECORDED] as number,
    estimatedCount: counts[ESTIMATED] as number,
    questionableCount: counts[QUESTIONABLE] as number,
    absentCount: counts[ABSENT] as number,
    leftOutCount: counts[LEFT_OUT] as number,
    duplicateCount,
  };
}

/** Energy of everything present, and its greatest interval mean with the start of that interval. */
export interface SeriesTotals {
  /** Null for currents, whose energy depends on a voltage nobody gave. */
  readonly energyKwh: number | null;
  /** Greatest mean, in W for energy and power, in A for current; null when nothing is present. */
  readonly greatestMean: { readonly value: number; readonly unit: "W" | "A"; readonly atMs: number } | null;
}

export function totalsOf(series: RecordedSeries, channel: RecordedChannel): SeriesTotals {
  const { stepS, startMs, unit } = series;
  let [sum, greatest, at] = [0, Number.NEGATIVE_INFINITY, -1];
  for (let index = 0; index < channel.values.length; index++) {
    const value = channel.values[index] as number;
    if (Number.isNaN(value)) continue;
    sum += value;
    if (value > greatest) [greatest, at] = [value, index];
  }
  const toMean = unit === "kWh" ? 3.6e6 / stepS : 1;
  return {
    energyKwh: unit === "A" ? null : unit === "kWh" ? sum : (sum * stepS) / 3.6e6,
    greatestMean:
      at < 0
        ? null
        : { value: greatest * toMean, unit: unit === "A" ? "A" : "W", atMs: startMs + at * stepS * 1000 },
  };
}

/**
 * Current of each interval, as the engine takes it.
 *
 *     I = P / (n · U · cosφ),  P = 3600000 · E / t
 *
 * For currents nothing is converted. Otherwise n is the number of lines that the value is shared between:
 * one for a channel of one line, and equal sharing is assumed where one value stands for three.
 *
 * @param by.voltageV Line to neutral, U. [V], 50 to 1000
 * @param by.powerFactor cosφ. [1], 0.05 to 1
 * @param by.lineCount n, line conductors that a value for all lines is shared between.
 * @returns Mean current, with NaN where nothing is present. [A]
 */
export function intervalSeriesOf(
  series: RecordedSeries,
  channel: RecordedChannel,
  by: { readonly voltageV: number; readonly powerFactor: number; readonly lineCount: 1 | 3 },
): IntervalSeries {
  const { stepS, unit } = series;
  if (unit === "A") return { intervalS: stepS, currentA: channel.values };
  requireInRange("voltageV", by.voltageV, 50, 1000);
  requireInRange("powerFactor", by.powerFactor, 0.05, 1);
  const lineCount = channel.line === null ? by.lineCount : 1;
  const toW = unit === "kWh" ? 3.6e6 / stepS : 1;
  const perA = lineCount * by.voltageV * by.powerFactor;
  return { intervalS: stepS, currentA: channel.values.map((value) => (value * toW) / perA) };
}
