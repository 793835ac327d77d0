import type { Notes } from "../notes.ts";

/** The columns of a wide table that hold one interval of the day each. */
export interface IntervalColumns {
  /** Places in the row, in the order of the day. */
  readonly at: readonly number[];
  /** Place of each column's own quality; -1 where it has none. */
  readonly qualityAt: readonly number[];
  readonly stepS: number;
  /** What the headings are: numbers of intervals, or times. */
  readonly named: "numbers" | "times";
  /** Label of the first column. [s] after midnight; for numbers 0. */
  readonly firstLabelS: number;
  /** True where each heading gives start and end. */
  readonly isRange: boolean;
}

/** Fewer columns of intervals than this are no wide table. */
const MIN_COLUMNS = 20;
const RANGE = /(\d{1,2}):?(\d{2})\s*(?:-|–|to)\s*(\d{1,2}):?(\d{2})$/i;
const TIME = /^(?:[^\d:]*[ _])?(\d{1,2}):(\d{2})(?::00)?(?:[ _(]+[kM]?wh?\)?)?$|^(\d{2})(\d{2})$/i;
const NUMBERED =
  /^(?:(?:hh|hhr|sp|p|h|t|period|interval|settlement period|half[ _-]?hour)[ _-]*)?0*(\d{1,3})(?:[ _-]*k?wh?)?$/i;
const QUALITY = /[ _-]*\(?(?:quality|flag|status|estimated|est|a\/e|type)\)?[ _-]*/i;

type Named = { readonly kind: "range" | "time" | "number"; readonly value: number };

function namedBy(heading: string): Named | null {
  if (QUALITY.test(heading)) return null;
  const range = RANGE.exec(heading);
  if (range !== null) return { kind: "range", value: (Number(range[1]) * 60 + Number(range[2])) * 60 };
  const time = TIME.exec(heading);
  if (time !== null) {
    const [hour, minute] = [Number(time[1] ?? time[3]), Number(time[2] ?? time[4])];
    if (hour <= 25 && minute < 60) return { kind: "time", value: (hour * 60 + minute) * 60 };
  }
  const number = NUMBERED.exec(heading);
  return number === null ? null : { kind: "number", value: Number(number[1]) };
}

/** Columns of intervals among headings; null where the table is not wide. Refuses those that make no day. */
export function intervalColumns(
  headings: readonly string[],
  line: number,
  notes: Notes,
): IntervalColumns | null {
  const named = headings.map((heading) => namedBy(heading.trim()));
  const kinds = ["range", "time", "number"] as const;
  const count = (kind: Named["kind"]): number => named.filter((name) => name?.kind === kind).length;
  const kind = kinds.toSorted((a, b) => count(b) - count(a))[0] as Named["kind"];
  if (count(kind) < MIN_COLUMNS) return null;
  const at = headings.flatMap((_, index) => (named[index]?.kind === kind ? [index] : []));
  const values = at.map((index) => named[index]?.value ?? 0);
  const refuse = (found: string, message: string): null => {
    notes.refuse({ code: "CELL_COUNT", line, found, message });
    return null;
  };
  if (kind === "number") {
    const [first = 0] = values;
    const broken = values.findIndex((value, index) => value !== first + index);
    if (first > 1 || broken >= 0)
      return refuse(
        `columns of intervals numbered ${values.slice(0, 60).join(", ")}`,
        "Number the columns of a day from 1, one after another, none missing and none twice.",
      );
    const stepS = stepOfCount(at.length);
    if (stepS === null)
      return refuse(
        `${at.length} columns of intervals`,
        "A day has 48 half-hours, 46 or 50 when the clocks change; or 24, 96, 144 or 288 shorter or longer intervals. Keep the columns of whole days.",
      );
    return {
      at,
      qualityAt: qualitiesOf(headings, at),
      stepS,
      named: "numbers",
      firstLabelS: 0,
      isRange: false,
    };
  }
  // A last column 00:00 is the midnight that ends the day.
  const labels = values.map((value, index) => (index > 0 && value === 0 ? 86_400 : value));
  const [first = 0, second = 0] = labels;
  const stepS = second - first;
  const broken = labels.findIndex((label, index) => label !== first + index * stepS);
  if (stepS < 60 || stepS > 3600 || 86_400 % stepS !== 0 || broken >= 0 || (first !== 0 && first !== stepS))
    return refuse(
      `columns ${at
        .slice(0, 3)
        .map((index) => headings[index])
        .join(
          ", ",
        )} …${broken < 0 ? "" : `; ${headings[at[broken] as number]} does not follow ${headings[at[broken - 1] as number]}`}`,
      "Head the columns of a day with times in equal steps, from 00:00 where they name starts or from the first step where they name ends.",
    );
  return {
    at,
    qualityAt: qualitiesOf(headings, at),
    stepS,
    named: "times",
    firstLabelS: first,
    isRange: kind === "range",
  };
}

/** Length of an interval when a day, short, whole or long by an hour, has so many; null for any other number. [s] */
function stepOfCount(count: number): number | null {
  for (const stepS of [3600, 1800, 900, 600, 300, 60]) {
    const perHour = 3600 / stepS;
    if ([23, 24, 25].some((hours) => hours * perHour === count)) return stepS;
  }
  return null;
}

/** A column is the quality of the one whose heading it repeats with a word such as "quality" or "flag". */
function qualitiesOf(headings: readonly string[], at: readonly number[]): readonly number[] {
  const qualities = new Map(
    headings.flatMap((heading, index) =>
      QUALITY.test(heading) ? [[heading.replace(QUALITY, "").trim().toLowerCase(), index] as const] : [],
    ),
  );
  return at.map((index) => qualities.get((headings[index] ?? "").trim().toLowerCase()) ?? -1);
}
