/**
 * How a table is laid out: which column holds what.
 *
 * Half-hours come in two shapes, one row a day or one row a reading, and in some two dozen variants of them
 * [half-hourly-tables].
 *
 * Columns are taken as stated; the others from their headings and from what stands in the first rows. Where
 * two columns would do, the answer is a question.
 *
 * @module
 */
import { LINES, type Line } from "@underfuse/engine";
import type { Notes } from "../notes.ts";
import { otherQuantityIn } from "../series/heading-claims.ts";
import { unitIn } from "../series/unit.ts";
import type { Statements } from "../statements.ts";
import { columnKind } from "./column-kind.ts";
import { type IntervalColumns, intervalColumns } from "./interval-headings.ts";
import { tidy } from "./tidy-heading.ts";

export interface Layout {
  /** One heading a column. */
  readonly headings: readonly string[];
  readonly dateAt: number;
  /** Column of the time of day; -1 where the date's column holds it too, or there is none. */
  readonly timeAt: number;
  /** Column of the number of the interval in its day; -1 where there is none. */
  readonly periodAt: number;
  /** Columns of values: one a channel, or in a wide table one an interval of the day. */
  readonly valuesAt: readonly number[];
  /** Column of each value's own quality; -1 where it has none. */
  readonly valueQualityAt: readonly number[];
  /** Line of each channel; null where the value is that of the whole supply. */
  readonly lines: readonly (Line | null)[];
  /** Column of the quality of a whole row; -1 where there is none. */
  readonly qualityAt: number;
  readonly meterAt: number;
  readonly unitAt: number;
  readonly totalAt: number;
  /** Null for a table with one reading, or one moment, a row. */
  readonly wide: IntervalColumns | null;
  /** What the heading of the time says of labels; null where it says nothing. */
  readonly labelsInHeading: "start" | "end" | null;
}

const METER =
  /\b(mpan|mprn|msn|serial)\b|^(meter|site|device)?( (id|identifier|no\.?|number|name|reference|point))?$/i;
const QUALITY = /\b(quality|flag|status|estimated|read type|reading type|a\/e)\b/i;
const UNIT = /^(units?|uom|unit of measure(ment)?)$/i;
const TOTAL = /\b(total|sum)\b/i;
const PERIOD = /\b(period|sp|hh|half[ -]?hour|interval)\b/i;
const TIME = /\b(time|hour|from|to|start|end)\b/i;

/**
 * Lays a table out from its headings and its first rows.
 *
 * @returns Null when it cannot be read at all; the notes then say why. Where a column must still be asked
 * for, the first that would do stands in, so that everything else can be asked at once.
 */
export function layOut(
  table: {
    readonly headings: readonly string[];
    readonly headingLine: number;
    readonly rows: readonly (readonly string[])[];
  },
  stated: Statements,
  notes: Notes,
): Layout | null {
  const { headings, headingLine, rows } = table;
  const names = headings.map(tidy);
  const columns = names.map((_, index) =>
    columnKind(
      rows.map((row) => row[index] ?? ""),
      stated.decimal,
    ),
  );
  const taken = new Set<number>();
  const named = (wanted: string | undefined, id: keyof Statements): number => {
    if (wanted === undefined) return -1;
    const found = placeOf(wanted, headings);
    if (found < 0) notes.refuse(columnAbsent(wanted, id, headings, headingLine));
    else {
      taken.add(found);
      notes.conclude(id, `${id} in column "${headings[found]}"`, "stated", "stated");
    }
    return found;
  };
  const one = (id: keyof Statements, what: string, candidates: readonly number[]): number => {
    const free = candidates.filter((index) => !taken.has(index));
    const [first = -1] = free;
    if (free.length > 1)
      askColumn(
        id,
        what,
        free.map((index) => headings[index] ?? ""),
        notes,
      );
    else if (first >= 0)
      notes.conclude(
        id,
        `${id} in column "${headings[first]}"`,
        `what stands in it, line ${headingLine + 1}`,
      );
    if (first >= 0) taken.add(first);
    return first;
  };
  const where = (test: (name: string, index: number) => boolean): readonly number[] =>
    names.flatMap((name, index) => (test(name, index) ? [index] : []));

  const wide = stated.value === undefined ? intervalColumns(names, headingLine, notes) : null;
  for (const index of wide === null ? [] : [...wide.at, ...wide.qualityAt]) taken.add(index);
  const statedDate = named(stated.date, "date");
  const statedTime = named(stated.time, "time");
  const statedPeriod = named(stated.period, "period");
  const statedQuality = named(stated.quality, "quality");
  const statedValues = (stated.value ?? []).map((wanted) => named(wanted, "value"));
  if (notes.problems.length > 0) return null;

  const meterAt =
    where(
      (name, index) =>
        METER.test(name) && name !== "" && !taken.has(index) && columns[index]?.isTime !== true,
    )[0] ?? -1;
  if (meterAt >= 0) taken.add(meterAt);
  const dates = where((_, index) => columns[index]?.isDate === true && !taken.has(index));
  const starts = dates.filter((index) => /\b(start|from)\b/i.test(names[index] ?? ""));
  const dateAt = statedDate >= 0 ? statedDate : one("date", "the date", starts.length === 1 ? starts : dates);
  for (const index of dates) taken.add(index);
  if (dateAt < 0) {
    notes.refuse({
      code: "NOT_A_TABLE",
      line: headingLine,
      found: `the columns ${headings.slice(0, 12).join(", ")}`,
      message:
        "No column holds dates such as 2026-11-25 or 25/11/2026. Check that this is the recording, and state the column of the date.",
    });
    return null;
  }
  const hasTimeInDate = columns[dateAt]?.isDateTime === true;
  const periods = where(
    (name, index) => columns[index]?.isCount === true && PERIOD.test(name) && !taken.has(index),
  );
  const needsTime = wide === null && !hasTimeInDate && statedTime < 0;
  const periodAt = statedPeriod >= 0 ? statedPeriod : needsTime ? (periods[0] ?? -1) : -1;
  if (periodAt >= 0 && statedPeriod < 0) {
    taken.add(periodAt);
    notes.conclude(
      "period",
      `number of the interval in column "${headings[periodAt]}"`,
      "its heading and the whole numbers in it",
    );
  }
  const times = where(
    (name, index) => columns[index]?.isTime === true && (columns[index]?.hasColon || TIME.test(name)),
  );
  const timeStarts = times.filter((index) => /\b(start|from)\b/i.test(names[index] ?? ""));
  const timeAt =
    statedTime >= 0
      ? statedTime
      : needsTime && periodAt < 0
        ? one("time", "the time of day", timeStarts.length === 1 ? timeStarts : times)
        : -1;
  for (const index of times) taken.add(index);
  if (needsTime && periodAt < 0 && timeAt < 0) {
    notes.refuse({
      code: "NOT_A_TABLE",
      line: headingLine,
      found: `the columns ${headings.slice(0, 12).join(", ")}`,
      message:
        "There is a date, and no time of day beside it or in it. State the column of the time or of the period, or give the table with one column for each interval of the day.",
    });
    return null;
  }
  const qualityAt =
    statedQuality >= 0
      ? statedQuality
      : (where((name, index) => QUALITY.test(name) && !taken.has(index))[0] ?? -1);
  if (qualityAt >= 0) taken.add(qualityAt);
  const unitAt = where((name, index) => UNIT.test(name) && !taken.has(index))[0] ?? -1;
  const totalAt =
    wide === null ? -1 : (where((name, index) => TOTAL.test(name) && !taken.has(index))[0] ?? -1);

  const shared = { headings, dateAt, timeAt, periodAt, qualityAt, meterAt, unitAt, totalAt, wide };
  const labelsInHeading = labelsOf(names[timeAt >= 0 ? timeAt : dateAt] ?? "", wide);
  if (wide !== null) {
    notes.conclude(
      "layout",
      "one row a day",
      `line ${headingLine}: ${wide.at.length} columns of ${wide.stepS / 60} min, ${headings[wide.at[0] as number]} to ${headings[wide.at.at(-1) as number]}`,
    );
    return { ...shared, valuesAt: wide.at, valueQualityAt: wide.qualityAt, lines: [null], labelsInHeading };
  }
  notes.conclude(
    "layout",
    "one row a reading",
    `line ${headingLine + 1}: a date${hasTimeInDate || timeAt >= 0 ? " and a time" : " and a number"} on every row`,
  );
  const valuesAt =
    statedValues.length > 0
      ? statedValues
      : chosenValues(
          where((name, index) => {
            const { isNumber = false, isEmpty = true } = columns[index] ?? {};
            return !taken.has(index) && (isNumber || (isEmpty && unitIn(name) !== null));
          }),
          names,
          headings,
          notes,
        );
  if (valuesAt.length === 0) {
    notes.refuse({
      code: "NOT_A_TABLE",
      line: headingLine,
      found: `the columns ${headings.slice(0, 12).join(", ")}`,
      message:
        "No column holds numbers beside the date. Check that this is the recording, and state the column of the value.",
    });
    return null;
  }
  return {
    ...shared,
    valuesAt,
    valueQualityAt: valuesAt.map(() => -1),
    lines: valuesAt.length === 3 ? LINES : valuesAt.map((index) => lineIn(names[index] ?? "")),
    labelsInHeading,
  };
}

/** Columns of the value among those that hold numbers. */
function chosenValues(
  numeric: readonly number[],
  names: readonly string[],
  headings: readonly string[],
  notes: Notes,
): readonly number[] {
  const name = (index: number): string => names[index] ?? "";
  const imports = numeric.filter((index) => otherQuantityIn(name(index)) === null);
  const withUnit = imports.filter((index) => unitIn(name(index)) !== null);
  const perLine = LINES.map((line) => withUnit.filter((index) => lineIn(name(index)) === line));
  const units = new Set(perLine.flat().map((index) => unitIn(name(index))));
  if (perLine.every((found) => found.length === 1) && units.size === 1) {
    const found = perLine.flat();
    notes.conclude(
      "value",
      `values in columns ${found.map((index) => `"${headings[index]}"`).join(", ")}`,
      "one for each line",
    );
    return found;
  }
  const choice = withUnit.length === 1 ? withUnit : imports.length > 0 ? imports : numeric;
  const [only = -1] = choice;
  if (choice.length > 1)
    askColumn(
      "value",
      "the value",
      choice.map((index) => headings[index] ?? ""),
      notes,
      choice.length < 3 ? undefined : onePerLine(choice, name).map((index) => headings[index] ?? ""),
    );
  else if (only >= 0) {
    const because =
      withUnit.length === 1
        ? "the only one with a unit of energy, power or current"
        : "the only one of numbers";
    notes.conclude("value", `value in column "${headings[only]}"`, because);
  }
  return only < 0 ? [] : [only];
}

/** Columns that look like the currents of three lines by their numbers, such as `I1`, `I2`, `I3`; empty where none do. */
function onePerLine(choice: readonly number[], nameOf: (index: number) => string): readonly number[] {
  const numbered = choice.filter((index) => [null, "A"].includes(unitIn(nameOf(index))));
  const perLine = ["1", "2", "3"].map((digit) =>
    numbered.filter((index) => /([123])(?!.*\d)/.exec(nameOf(index))?.[1] === digit),
  );
  return perLine.every((found) => found.length === 1) ? perLine.flat() : [];
}

function askColumn(
  id: keyof Statements,
  what: string,
  headings: readonly string[],
  notes: Notes,
  orThree?: readonly string[],
): void {
  notes.ask({
    ...(orThree !== undefined && { orThree }),
    id,
    asks: `Which column is ${what}?`,
    because:
      headings.length === 2 ? "either of two columns would do" : `any of ${headings.length} columns would do`,
    answers: headings.slice(0, 30).map((heading) => ({ answer: heading, means: "" })),
  });
}

const lineIn = (name: string): Line | null =>
  LINES.find((line) => new RegExp(`(^|[^a-z0-9])${line}([^0-9]|$)`, "i").test(name)) ?? null;

function labelsOf(name: string, wide: IntervalColumns | null): Layout["labelsInHeading"] {
  if (wide !== null) return wide.isRange ? "start" : null;
  if (/\b(start(ing)?|begin(ning)?|from)\b/i.test(name)) return "start";
  return /\b(end(ing)?|until|to)\b/i.test(name) ? "end" : null;
}

const placeOf = (wanted: string, headings: readonly string[]): number => {
  const numbered = /^#(\d{1,4})$/.exec(wanted);
  if (numbered !== null) return Number(numbered[1]) <= headings.length ? Number(numbered[1]) - 1 : -1;
  const exact = headings.findIndex((heading) => heading.trim() === wanted.trim());
  if (exact >= 0) return exact;
  return headings.findIndex((heading) => heading.trim().toLowerCase() === wanted.trim().toLowerCase());
};

const columnAbsent = (wanted: string, id: string, headings: readonly string[], line: number) =>
  ({
    code: "COLUMN_ABSENT",
    line,
    found: `no column "${wanted}"`,
    message: `The column stated for ${id} is not there. The columns are ${headings.slice(0, 60).join(", ")}; a column without a heading is #1, #2 and so on.`,
  }) as const;
