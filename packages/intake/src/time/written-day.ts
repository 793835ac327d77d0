/**
 * Calendar days as files write them, kept in the order they are written until the order is known.
 *
 * Day, month and year are packed into one whole number, so that millions of rows can wait for a
 * conclusion that only a later row allows.
 *
 * @module
 */
import type { DateOrder } from "../statements.ts";

/** How a day is written: year first, year last, or with the month's name. */
export const YEAR_FIRST = 0;
export const YEAR_LAST = 1;
export const MONTH_NAMED = 2;

const MONTHS = ["jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec"];
const NAMED = /^(\d{1,2})[ -/]([A-Za-z]{3,9})\.?[ -/](\d{4}|\d{2})(?=$|[ T,])/;
const COMPACT = /^(\d{4})(\d{2})(\d{2})(?=$|[ T])/;

/** A day as it is written, and where in the text it ends. */
export interface WrittenDay {
  /** The packed day; -1 where the text begins with none. */
  packed: number;
  /** Characters taken. */
  length: number;
}

/** True when a packed year was written with two digits. */
export const hasShortYear = (packed: number): boolean => ((packed >> 14) & 0x3fff) < 100;

/**
 * Reads the day at the beginning of a text: `29/10/2023`, `2023-10-29`, `29 Oct 2023` or `20231029`.
 *
 * @param into Takes the result; handed in because this runs once a row.
 */
export function readWrittenDay(text: string, into: WrittenDay): void {
  into.packed = -1;
  const first = digitsAt(text, 0);
  const mark = text.charCodeAt(first);
  if (first > 0 && first !== 3 && first <= 4 && (mark === SLASH || mark === DASH || mark === POINT)) {
    const second = digitsAt(text, first + 1);
    const third = digitsAt(text, first + second + 2);
    if (second > 0 && second <= 2 && text.charCodeAt(first + second + 1) === mark) {
      const a = number(text, 0, first);
      const b = number(text, first + 1, second);
      const c = number(text, first + second + 2, third);
      into.length = first + second + third + 2;
      if (first === 4 && third > 0 && third <= 2 && a >= 100) into.packed = pack(YEAR_FIRST, a, b, c);
      else if (first <= 2 && (third === 4 || third === 2))
        into.packed = third === 4 && c < 100 ? -1 : pack(YEAR_LAST, c, a, b);
      return;
    }
  }
  const named = NAMED.exec(text);
  const month = MONTHS.indexOf((named?.[2] ?? "").slice(0, 3).toLowerCase());
  if (named !== null && month >= 0) {
    into.packed = pack(MONTH_NAMED, Number(named[3]), month + 1, Number(named[1]));
    into.length = named[0].length;
    return;
  }
  const compact = COMPACT.exec(text);
  if (compact === null) return;
  into.packed = pack(YEAR_FIRST, Number(compact[1]), Number(compact[2]), Number(compact[3]));
  into.length = compact[0].length;
}

const SLASH = 47;
const DASH = 45;
const POINT = 46;

/** -1 for a four-digit year before {@link FIRST_YEAR}: nobody recorded demand then. */
const pack = (kind: number, year: number, a: number, b: number): number =>
  year > 99 && year < FIRST_YEAR ? -1 : (kind << 28) | (year << 14) | (a << 7) | b;
const FIRST_YEAR = 1900;

export interface DayParts {
  readonly kind: number;
  readonly year: number;
  /** The two numbers beside the year, in the order written; month and day where the kind tells. */
  readonly a: number;
  readonly b: number;
}

export const partsOf = (packed: number): DayParts => {
  const year = (packed >> 14) & 0x3fff;
  return {
    kind: packed >> 28,
    // Two digits can only mean this century: nobody recorded half-hours in the last one but for research.
    year: year < 100 ? 2000 + year : year,
    a: (packed >> 7) & 0x7f,
    b: packed & 0x7f,
  };
};

/**
 * Day of a packed date, counted from 1 January 1970.
 *
 * @returns NaN for a day that the calendar does not have.
 */
export function epochDay(packed: number, order: DateOrder): number {
  const { kind, year, a, b } = partsOf(packed);
  const isDayFirst = kind === YEAR_LAST && order === "day/month/year";
  const [month, day] = isDayFirst ? [b, a] : [a, b];
  if (month < 1 || month > 12 || day < 1) return Number.NaN;
  const atMs = Date.UTC(year, month - 1, day);
  return new Date(atMs).getUTCDate() === day ? atMs / 86_400_000 : Number.NaN;
}

/**
 * Reads whole cells that hold a day in one order and nothing else.
 *
 * @returns A reader that gives the day, counted from 1 January 1970; null where the cell is none in that order.
 */
export function dayReader(order: DateOrder): (cell: string) => number | null {
  const into: WrittenDay = { packed: -1, length: 0 };
  let lastCell = "";
  let last: number | null = null;
  return (cell) => {
    if (cell === lastCell) return last;
    const text = cell.trim();
    readWrittenDay(text, into);
    const isOther = (into.packed >> 28 === YEAR_FIRST) !== (order === "year-month-day");
    const day =
      into.packed < 0 || isOther || text.length > into.length ? Number.NaN : epochDay(into.packed, order);
    lastCell = cell;
    last = Number.isNaN(day) ? null : day;
    return last;
  };
}

/**
 * A packed date as the file writes it.
 *
 * @param like Another date of the file: its marks, and whether numbers below ten have a zero before them.
 */
export function writtenAs(packed: number, like = ""): string {
  const { kind, year, a, b } = partsOf(packed);
  const mark = /[/.-]/.exec(like)?.[0] ?? (kind === YEAR_LAST ? "/" : "-");
  const isPadded = !/(^|\D)\d(\D|$)/.test(like);
  const [first, second] = [a, b].map((part) => String(part).padStart(isPadded ? 2 : 1, "0"));
  const shownYear = hasShortYear(packed) ? String(year % 100).padStart(2, "0") : year;
  return (kind === YEAR_LAST ? [first, second, shownYear] : [shownYear, first, second]).join(mark);
}

function digitsAt(text: string, start: number): number {
  let at = start;
  while (at < text.length && at < start + 5) {
    const code = text.charCodeAt(at);
    if (code < 48 || code > 57) break;
    at++;
  }
  return at - start;
}

function number(text: string, start: number, length: number): number {
  let value = 0;
  for (let at = start; at < start + length; at++) value = value * 10 + text.charCodeAt(at) - 48;
  return value;
}
