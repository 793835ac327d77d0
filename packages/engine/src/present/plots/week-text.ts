import { highestText, meanText } from "./amps.ts";
import { durationText } from "./durations.ts";
import { countText, numberText } from "./number-text.ts";
import type { PlotNames, PlotText } from "./plot.ts";
import { type Bounds, heldAgainst, missingReferences, references } from "./references.ts";
import { countWhere, extentOf, indexOfMax, meanOf, present, type Samples, sampleAt } from "./samples.ts";

/** One line of the supply. Each series has one value a period, in order; NaN where nothing was recorded. */
export interface LineOfWeek {
  readonly name: string;
  readonly supplyMeanA: Samples;
  readonly supplyMaxA: Samples;
  readonly carMeanA: Samples;
  readonly carMaxA: Samples;
}

export interface WeekOfCurrent extends PlotNames, Bounds {
  /** Length of a period. [s], 600 as a rule */
  readonly periodS: number;
  /** Three at most. */
  readonly lines: readonly LineOfWeek[];
  /** The period in which each day begins, and what the day is called. */
  readonly days: readonly { readonly period: number; readonly label: string }[];
  /** A period to point at, on the line of that name; null for none. */
  readonly moment: { readonly period: number; readonly line: string; readonly label: string } | null;
}

/** What the drawing of a week shows, in words. */
export function weekText(
  week: WeekOfCurrent,
  drawn: { readonly periodCount: number; readonly runLength: number; readonly isMarked: boolean },
): PlotText {
  const { lines, periodS, moment } = week;
  const known = references(week);
  const peaks = lines.flatMap((line) => {
    const period = indexOfMax(line.supplyMaxA);
    const peakA = sampleAt(line.supplyMaxA, period);
    return peakA === null ? [] : [{ line, period, peakA }];
  });
  const highest = peaks.toSorted((a, b) => b.peakA - a.peakA)[0];
  const gaps = lines.map(({ name, supplyMaxA }) => ({
    name,
    count: drawn.periodCount - present(supplyMaxA).length,
  }));
  return {
    sentences: [
      `Current of ${lines.map(({ name }) => name).join(", ") || "no line"} over ${durationText(drawn.periodCount * periodS)}, in ${countText(drawn.periodCount, "period")} of ${durationText(periodS)}.`,
      highest === undefined
        ? "Nothing was recorded."
        : `The highest is ${highestText(highest.peakA)} on ${highest.line.name}, ${momentText(week, highest.period)}${heldAgainst(highest.peakA, known)}.`,
      ...missingReferences(known),
      ...(moment === null
        ? []
        : [
            drawn.isMarked
              ? `Marked on ${moment.line}, ${momentText(week, moment.period)}: ${moment.label}.`
              : `A mark on ${moment.line} in period ${moment.period + 1} lies outside what was recorded and is not drawn: ${moment.label}.`,
          ]),
      ...(gaps.some(({ count }) => count > 0)
        ? [
            `Gaps are periods without a usable record: ${gaps.map(({ name, count }) => `${name} ${numberText(count, 0)}`).join(", ")}.`,
          ]
        : []),
      ...(drawn.runLength > 1
        ? [
            `Each column drawn stands for ${durationText(drawn.runLength * periodS)}: the mean of the means, the highest of the highest.`,
          ]
        : []),
    ],
    table: {
      head: [
        "Line",
        "Supply, highest",
        "When",
        "Supply, mean",
        ...known.map(({ text }) => `Periods above ${text}`),
        "Cars, highest",
        "Cars, mean",
      ],
      rows: lines.map((line) => {
        const peak = peaks.find((item) => item.line === line);
        const carPeakA = extentOf([line.carMaxA])?.max;
        return [
          line.name,
          ...(peak === undefined ? ["–", "–"] : [highestText(peak.peakA), momentText(week, peak.period)]),
          meanText(meanOf(line.supplyMeanA)),
          ...known.map(({ valueA }) =>
            numberText(
              countWhere(line.supplyMaxA, (currentA) => currentA > valueA),
              0,
            ),
          ),
          carPeakA === undefined ? "–" : highestText(carPeakA),
          meanText(meanOf(line.carMeanA)),
        ];
      }),
    },
  };
}

/** When a period begins: the day it lies in and the time since that day began. */
function momentText({ days, periodS }: WeekOfCurrent, period: number): string {
  const day = days
    .filter((item) => item.period <= period)
    .reduce<(typeof days)[number] | null>(
      (last, item) => (last && last.period > item.period ? last : item),
      null,
    );
  if (day === null) return `period ${numberText(period + 1, 0)}`;
  const minutes = Math.floor(((period - day.period) * periodS) / 60);
  const two = (count: number): string => String(count).padStart(2, "0");
  return `${day.label} ${two(Math.floor(minutes / 60))}:${two(minutes % 60)}`;
}
