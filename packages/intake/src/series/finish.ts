import type { Line } from "@underfuse/engine";
import type { ImportResult } from "../import-result.ts";
import type { Notes } from "../notes.ts";
import type { Statements } from "../statements.ts";
import type { RowReader } from "../table/row-reader.ts";
import type { Placed } from "./placed.ts";
import { LEFT_OUT } from "./quality.ts";
import { concludeReadings, type SaidReadings } from "./readings.ts";
import { type RecordedSeries, totalsOf } from "./recorded-series.ts";
import { energyFromRegister } from "./register.ts";
import type { KeptUnit } from "./unit.ts";
import { markZeroStretches } from "./zero-stretches.ts";

/** A greatest mean outside these limits makes the unit doubtful: less than a lamp, more than 400 A on three lines. */
const PLAUSIBLE_W = { least: 50, most: 276_000 };
const PLAUSIBLE_A = { least: 0.2, most: 400 };

/** Placed readings, and what the file showed of them on the way. */
interface PlacedReadings {
  readonly placed: Placed;
  readonly unit: KeptUnit;
  readonly stepS: number;
  /** Line of each channel; null where the value is that of the whole supply. */
  readonly lines: readonly (Line | null)[];
  readonly negatives: RowReader["negatives"];
  /** Null for a file that prints no totals. */
  readonly totals: RowReader["totals"] | null;
  /** What the file says a value is; null where it says nothing. */
  readonly readings: SaidReadings | null;
  /** Headings of the columns of values; none where the file has no table. */
  readonly headings: readonly string[];
}

/** Judges placed readings as a whole: registers, signs, stretches of zeros, and what is hard to believe. */
export function finish(told: PlacedReadings, stated: Statements, notes: Notes): ImportResult {
  const { unit, stepS, lines, negatives, totals } = told;
  const isRegister = concludeReadings({ ...told, unit: unit.unit }, stated, notes);
  if (negatives.count > 0) concludeNegatives(told.placed, negatives, stated, notes);
  if (notes.questions.length > 0) return notes.outcome();
  const placed = isRegister ? energyFromRegister(told.placed, stepS, notes) : told.placed;
  if (placed.channels.every(({ values }) => values.every(Number.isNaN)))
    notes.refuse({
      code: "NOTHING_RECORDED",
      line: 0,
      found: "no interval with a value that can be used",
      message: "Check that the column of the value is the right one.",
    });
  if (notes.problems.length > 0) return notes.outcome();
  markZeroStretches(placed, stepS, notes);
  if (totals !== null && totals.wrongCount > 0) remarkTotals(totals, stepS, notes);
  if (86_400 % stepS !== 0)
    notes.remark(
      "step",
      `${stepS} s does not divide a day: the simulation needs whole days and will not take this recording. Record in steps of which a day holds a whole number, such as 5, 6, 10, 30 or 60 s.`,
    );
  const series: RecordedSeries = {
    startMs: placed.startMs,
    stepS,
    unit: unit.unit,
    channels: placed.channels.map((channel, index) => ({ line: lines[index] ?? null, ...channel })),
  };
  for (const channel of series.channels) remarkImplausible(series, channel, notes);
  const { conclusions, remarks } = notes;
  return { state: "series", series, conclusions, remarks };
}

function concludeNegatives(
  { channels }: Placed,
  { count, firstLine, first }: RowReader["negatives"],
  stated: Statements,
  notes: Notes,
): void {
  if (stated.negative === undefined) {
    notes.ask({
      id: "negative",
      asks: "What are the values below zero?",
      because: `${count} ${count === 1 ? "is" : "are"}, the first on line ${firstLine}: ${first}`,
      answers: [
        { answer: "net", means: "energy sent out: they are kept" },
        { answer: "absent", means: "no readings: they are left out" },
      ],
    });
    return;
  }
  notes.conclude(
    "negative",
    stated.negative === "net" ? "values below zero are energy sent out" : "values below zero are left out",
    "stated",
    "stated",
  );
  if (stated.negative === "net") return;
  for (const { values, quality } of channels)
    for (let at = 0; at < values.length; at++)
      if ((values[at] as number) < 0) {
        values[at] = Number.NaN;
        quality[at] = LEFT_OUT;
      }
}

function remarkTotals(totals: RowReader["totals"], stepS: number, notes: Notes): void {
  const { wrongCount, checkedCount, firstLine, firstPrinted, firstSum } = totals;
  const perHour = 3600 / stepS;
  const isPower = Math.abs(firstSum / perHour - firstPrinted) <= 0.01 * Math.abs(firstPrinted);
  notes.remark(
    "totals",
    `${wrongCount} of ${checkedCount} rows ${wrongCount === 1 ? "does" : "do"} not add up to the total printed in ${wrongCount === 1 ? "it" : "them"}, first line ${firstLine}: ${firstSum.toPrecision(6)} against ${firstPrinted}.${isPower ? " As mean power they would." : ""}`,
  );
}

function remarkImplausible(
  series: RecordedSeries,
  channel: RecordedSeries["channels"][number],
  notes: Notes,
): void {
  const { greatestMean } = totalsOf(series, channel);
  if (greatestMean === null) return;
  const { value, unit } = greatestMean;
  const { least, most } = unit === "A" ? PLAUSIBLE_A : PLAUSIBLE_W;
  if (value >= least && value <= most) return;
  notes.remark(
    "implausible",
    `The greatest interval mean is ${Number(value.toPrecision(4))} ${unit}, ${value < least ? "hardly anything" : "more than a supply of 400 A carries"}. Check the unit.`,
  );
}
