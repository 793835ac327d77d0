import type { IntervalSeries, Job } from "@underfuse/engine";
import { parse } from "csv-parse/sync";

/** An entry of the job that says how a recording is laid out. */
export type Recording = Extract<Job["demand"]["recordings"][number], { kind: "interval-series" }>;

export type SeriesResult =
  | { readonly ok: true; readonly series: IntervalSeries }
  | { readonly ok: false; readonly message: string };

const MS_PER_DAY = 86_400_000;
/** Intervals that all recordings of a job may hold together: a year and a half of seconds. */
export const MAX_INTERVALS = 50_000_000;

/**
 * Reads a recording laid out as the job says: a header row, a date, a time and a current on every row.
 *
 * Times are taken as they stand, without daylight saving. An interval without a row, or with an empty
 * value, stays absent. A row off the interval grid, a second row for one interval, or a value that is not a
 * number refuses the whole file, with its line: a recording that may be misread is no evidence.
 *
 * @param room Intervals that may still be held.
 */
export function readSeries(text: string, recording: Recording, room = MAX_INTERVALS): SeriesResult {
  const { columns, intervalS, labels, from, until } = recording;
  const rows = rowsOf(text, columns.delimiter);
  if (typeof rows === "string") return refuse(1, rows);
  const header = rows.next().value ?? [];
  const names = [columns.date, columns.time, columns.current];
  const absent = names.filter((name) => !header.includes(name));
  if (absent.length > 0)
    return refuse(
      1,
      `there is no column ${absent.map((name) => `"${name}"`).join(", ")}; the columns are ${header.join(", ")}`,
    );
  const [dateAt = 0, timeAt = 0, currentAt = 0] = names.map((name) => header.indexOf(name));
  const startMs = Date.parse(`${from}T00:00:00Z`);
  const count = (Date.parse(`${until}T00:00:00Z`) + MS_PER_DAY - startMs) / (intervalS * 1000);
  if (count > room) {
    return refuse(
      0,
      `the days from ${from} to ${until} hold ${count} intervals of ${intervalS} s, and the recordings of a job may hold ${MAX_INTERVALS} together; name fewer days, or record in longer intervals`,
    );
  }
  if (!(count > 0 && Number.isInteger(count))) {
    return refuse(
      0,
      `the days from ${from} to ${until} do not hold a whole number of intervals of ${intervalS} s`,
    );
  }
  const currentA = new Float64Array(count).fill(Number.NaN);
  const seen = new Uint8Array(count);
  const shiftMs = labels === "end" ? intervalS * 1000 : 0;
  const instantMs = instantReader(columns.dateOrder);
  let line = 1;
  for (const row of rows) {
    line++;
    if (row.length === 1 && row[0] === "") continue;
    const at = instantMs(row[dateAt] ?? "", row[timeAt] ?? "");
    if (at === null)
      return refuse(line, `"${row[dateAt]} ${row[timeAt]}" is no date and time written ${columns.dateOrder}`);
    const slot = (at - shiftMs - startMs) / (intervalS * 1000);
    if (slot < 0 || slot >= count) continue;
    if (!Number.isInteger(slot)) return refuse(line, `the time is not on the grid of ${intervalS} s`);
    if (seen[slot] === 1) return refuse(line, "this interval stands twice");
    seen[slot] = 1;
    const value = (row[currentAt] ?? "").trim();
    if (value === "" || value === "?") continue;
    const current = Number(value);
    if (!Number.isFinite(current) || current < 0) return refuse(line, `"${value}" is no current in amperes`);
    currentA[slot] = current;
  }
  return { ok: true, series: { intervalS, currentA } };
}

const refuse = (line: number, what: string): SeriesResult => ({
  ok: false,
  message: line === 0 ? what : `line ${line}: ${what}`,
});

/** Rows of a table, the first its header; or why it is none. Only a text with quotes needs the library. */
function rowsOf(text: string, delimiter: string): IterableIterator<readonly string[]> | string {
  if (!text.includes('"')) return plainRows(text, delimiter);
  try {
    return parse(text, { delimiter, bom: true, relax_column_count: true }).values();
  } catch (error) {
    return error instanceof Error ? error.message : "it is not a table";
  }
}

function* plainRows(text: string, delimiter: string): Generator<readonly string[], undefined> {
  let start = text.startsWith("\ufeff") ? 1 : 0;
  while (start < text.length) {
    const found = text.indexOf("\n", start);
    const end = found < 0 ? text.length : found;
    yield text.slice(start, text[end - 1] === "\r" ? end - 1 : end).split(delimiter);
    start = end + 1;
  }
}

type DateOrder = Recording["columns"]["dateOrder"];

/** Reads instants row by row; a date or a time of day that was met before is not read again. */
function instantReader(order: DateOrder): (date: string, time: string) => number | null {
  const days = new Map<string, number | null>();
  const times = new Map<string, number | null>();
  const once = (
    known: Map<string, number | null>,
    text: string,
    read: (text: string) => number | null,
  ): number | null => {
    const met = known.get(text);
    if (met !== undefined) return met;
    const value = read(text);
    known.set(text, value);
    return value;
  };
  return (date, time) => {
    const day = once(days, date, (text) => dayMs(text, order));
    const second = once(times, time, secondOfDay);
    return day === null || second === null ? null : day + second * 1000;
  };
}

function dayMs(date: string, order: DateOrder): number | null {
  const pattern =
    order === "day/month/year" ? /^(\d{1,2})\/(\d{1,2})\/(\d{4})$/ : /^(\d{4})-(\d{2})-(\d{2})$/;
  const parts = pattern.exec(date.trim())?.slice(1).map(Number);
  if (parts === undefined) return null;
  const [a = 0, month = 0, c = 0] = parts;
  const [year, day] = order === "day/month/year" ? [c, a] : [a, c];
  const at = Date.UTC(year, month - 1, day);
  return new Date(at).getUTCDate() === day && month >= 1 && month <= 12 ? at : null;
}

function secondOfDay(time: string): number | null {
  const parts = /^(\d{1,2}):(\d{2})(?::(\d{2}))?$/.exec(time.trim());
  if (parts === null) return null;
  const [hour, minute, second] = [Number(parts[1]), Number(parts[2]), Number(parts[3] ?? 0)];
  return hour < 24 && minute < 60 && second < 60 ? hour * 3600 + minute * 60 + second : null;
}
