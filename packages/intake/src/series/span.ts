import type { Notes } from "../notes.ts";
import type { RowStore } from "../table/row-store.ts";
import { isoDay } from "../time/clock.ts";

/** Intervals that one recording may hold: a year and a half of seconds. */
export const MAX_INTERVALS = 50_000_000;
/** Days that one recording may span: fifty years, longer than any logger lasts. */
const MAX_DAYS = 50 * 366;

const DAY_S = 86_400;

/** Days of a recording as labelled. */
export interface Span {
  /** Midnight that begins the first day, as if labels were UTC. [ms] */
  readonly fromMs: number;
  /** Midnight that ends the day after the last: a label may close its day. [ms] */
  readonly untilMs: number;
}

/**
 * The days a store spans, once they are settled.
 *
 * @returns Null where they are more than a recording may hold: one wrong date must not ask for the memory of a
 * thousand years. The notes then say which line.
 */
export function spanOf(store: RowStore, stepS: number, notes: Notes): Span | null {
  const first = { day: Number.POSITIVE_INFINITY, line: 0 };
  const last = { day: Number.NEGATIVE_INFINITY, line: 0 };
  store.eachRow(false, (piece, row) => {
    const day = piece.day[row] as number;
    if (day < first.day) {
      first.day = day;
      first.line = piece.line[row] as number;
    }
    if (day > last.day) {
      last.day = day;
      last.line = piece.line[row] as number;
    }
  });
  const dayCount = last.day - first.day + 1;
  if (dayCount > MAX_DAYS || (dayCount * DAY_S) / stepS > MAX_INTERVALS) {
    notes.refuse({
      code: "SPAN_TOO_LONG",
      line: Math.max(first.line, last.line),
      found: `days from ${isoDay(first.day)} (line ${first.line}) to ${isoDay(last.day)} (line ${last.line})`,
      message: `A recording may span ${MAX_DAYS} days and hold ${MAX_INTERVALS} intervals; in steps of ${stepS} s these are more. Correct the date that is far off, or import fewer days.`,
    });
    return null;
  }
  return { fromMs: first.day * DAY_S * 1000, untilMs: (last.day + 2) * DAY_S * 1000 };
}
