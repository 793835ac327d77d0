import { addDays, daysBetween } from "../../quantities/index.ts";
import { withUnit } from "../format.ts";
import { countText, numberText } from "./number-text.ts";
import type { PlotNames, PlotText } from "./plot.ts";
import { countWhere, drawable, extentOf, indexOfMax, present, type Samples, sampleAt } from "./samples.ts";
import { linearTicks } from "./ticks.ts";

export interface FuseMarginYear extends PlotNames {
  /** Highest fraction of each day on the fast edge, 0 to 1 and beyond; NaN where the day was not worked. */
  readonly fastFraction: Samples;
  /** The same on the slow edge; never more than on the fast. */
  readonly slowFraction: Samples;
  /** Date of the first day; null where the days have no date. */
  readonly firstDayIso: string | null;
}

/** Months are named up to here; a longer series has its days numbered. */
const MAX_MONTHS_DAYS = 3 * 366;
const MONTHS = ["Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"];

/** A damage fraction: rounded up, so that what is beyond 1 never reads as 1. */
export const fractionText = (fraction: number): string =>
  fraction < 1 ? withUnit(fraction, "", 3, "up") : numberText(fraction, fraction < 10 ? 2 : 1, "up");

/** Days to mark along the axis: the first of each month, or round numbers where there are no dates. */
export function dayMarks(
  firstDayIso: string | null,
  dayCount: number,
): readonly { readonly day: number; readonly text: string }[] {
  if (firstDayIso === null || dayCount > MAX_MONTHS_DAYS) {
    return linearTicks({ min: 0, max: dayCount, maxCount: 6, minStep: 1 })
      .filter(({ value }) => value > 0 && value <= dayCount)
      .map(({ value, text }) => ({ day: value - 1, text: `day ${text}` }));
  }
  return Array.from({ length: dayCount }, (_, day) => ({ day, iso: addDays(firstDayIso, day) }))
    .filter(({ iso }) => iso.endsWith("-01"))
    .map(({ day, iso }) => ({ day, text: MONTHS[Number(iso.slice(-5, -3)) - 1] ?? iso }));
}

const dayText = (firstDayIso: string | null, day: number): string =>
  firstDayIso === null ? `day ${numberText(day + 1, 0)}` : addDays(firstDayIso, day);

/** The first day with the highest fraction, on the fast edge where that was worked. */
export function worstDay({ fastFraction, slowFraction, firstDayIso }: FuseMarginYear): {
  readonly day: number;
  readonly when: string;
  readonly fraction: number;
  readonly slowFraction: number | null;
} | null {
  const samples = indexOfMax(fastFraction) >= 0 ? fastFraction : slowFraction;
  const day = indexOfMax(samples);
  const fraction = sampleAt(samples, day);
  return fraction === null
    ? null
    : { day, when: dayText(firstDayIso, day), fraction, slowFraction: drawable(slowFraction[day]) };
}

export function fuseYearText(
  year: FuseMarginYear,
  drawn: { readonly dayCount: number; readonly runLength: number; readonly isLinear: boolean },
): PlotText {
  const { fastFraction, slowFraction, firstDayIso } = year;
  const worst = worstDay(year);
  const melted = (samples: FuseMarginYear["fastFraction"]): string =>
    numberText(
      countWhere(samples, (fraction) => fraction >= 1),
      0,
    );
  const absent = drawn.dayCount - present(fastFraction).length;
  return {
    sentences: [
      `Damage fraction of the main fuse, highest of each of ${countText(drawn.dayCount, "day")}${firstDayIso === null || drawn.dayCount === 0 ? "" : ` from ${firstDayIso}`}; at 1 it melts.`,
      ...(worst === null
        ? ["Nothing was worked."]
        : worst.fraction <= 0
          ? ["It is 0 on every day."]
          : [
              `The worst is ${fractionText(worst.fraction)} on ${worst.when}${worst.slowFraction === null ? "" : `, on the slow edge ${fractionText(worst.slowFraction)}`}.`,
              `Days on which the fuse may have melted, at 1 or more on the fast edge: ${melted(fastFraction)}; on which it has melted, at 1 or more on the slow edge: ${melted(slowFraction)}.`,
            ]),
      ...(absent > 0
        ? [`Gaps are days without a usable figure on the fast edge: ${numberText(absent, 0)}.`]
        : []),
      ...(drawn.runLength > 1
        ? [`Each column drawn is the highest of ${countText(drawn.runLength, "day")}.`]
        : []),
      ...(drawn.isLinear ? [] : ["The scale is logarithmic; what is below 0.01 is drawn at 0.01."]),
    ],
    table: monthTable(year, drawn.dayCount),
  };
}

/** The highest of each month; null where the days have no months. */
function monthTable({ fastFraction, slowFraction, firstDayIso }: FuseMarginYear, dayCount: number) {
  if (firstDayIso === null || dayCount === 0 || dayCount > MAX_MONTHS_DAYS) return null;
  const starts = [firstDayIso];
  for (let day = 1; day < dayCount; day++) {
    const iso = addDays(firstDayIso, day);
    if (iso.endsWith("-01")) starts.push(iso);
  }
  const highest = (samples: FuseMarginYear["fastFraction"], from: number, to: number): string => {
    const extent = extentOf([
      Array.from({ length: to - from }, (_, index) => samples[from + index] ?? Number.NaN),
    ]);
    return extent === null ? "–" : fractionText(extent.max);
  };
  return {
    head: ["Month", "Fast edge, highest", "Slow edge, highest"],
    rows: starts.map((iso, index) => {
      const from = daysBetween(firstDayIso, iso);
      const next = starts[index + 1];
      const to = next === undefined ? dayCount : daysBetween(firstDayIso, next);
      return [iso.slice(0, 7), highest(fastFraction, from, to), highest(slowFraction, from, to)];
    }),
  };
}
