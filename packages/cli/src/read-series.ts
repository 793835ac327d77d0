import type { IntervalSeries, Job } from "@underfuse/engine";
import { dayReader, eachRow, secondOfDay } from "@underfuse/intake";

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
 * Date and time may be one column, named twice. Times are taken as they stand, without daylight saving. An
 * interval without a row, or with an empty value, stays absent. A row off the interval grid, a second row for one
 * interval, or a value that is not a number refuses the whole file, with its line: a recording that may be misread
 * is no evidence.
 *
 * @param room Intervals that may still be held.
 */
export function readSeries(text: string, recording: Recording, room = MAX_INTERVALS): SeriesResult {
  const { columns, intervalS, labels, from, until } = recording;
  const names = [columns.date, columns.time, columns.current];
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
  const dayOf = dayReader(columns.dateOrder);
  let [dateAt, timeAt, currentAt] = [-1, -1, -1];
  /** Why a row is refused; null for a row that is read or does not count. */
  const take = (row: readonly string[]): string | null => {
    const [date, time] =
      dateAt === timeAt ? parted(row[dateAt] ?? "") : [row[dateAt] ?? "", row[timeAt] ?? ""];
    const day = dayOf(date);
    const second = secondOfDay(time);
    if (day === null || second === null)
      return `"${date} ${time}" is no date and time written ${columns.dateOrder}`;
    const slot = (day * MS_PER_DAY + second * 1000 - shiftMs - startMs) / (intervalS * 1000);
    if (slot < 0 || slot >= count) return null;
    if (!Number.isInteger(slot)) return `the time is not on the grid of ${intervalS} s`;
    if (seen[slot] === 1) return "this interval stands twice";
    seen[slot] = 1;
    const value = (row[currentAt] ?? "").trim();
    if (value === "" || value === "?") return null;
    const current = Number(value);
    if (!Number.isFinite(current) || current < 0) return `"${value}" is no current in amperes`;
    currentA[slot] = current;
    return null;
  };
  const takeHeadings = (header: readonly string[]): string | null => {
    [dateAt = -1, timeAt = -1, currentAt = -1] = names.map((name) => header.indexOf(name));
    const absent = names.filter((name) => !header.includes(name));
    return absent.length === 0
      ? null
      : `there is no column ${absent.map((name) => `"${name}"`).join(", ")}; the columns are ${header.join(", ")}`;
  };
  let rowCount = 0;
  let refused: SeriesResult | null = null;
  const broken = eachRow(text, columns.delimiter, (row, line) => {
    if (refused !== null) return;
    const why = rowCount++ === 0 ? takeHeadings(row) : take(row);
    if (why !== null) refused = refuse(line, why);
  });
  if (refused !== null) return refused;
  if (broken !== null) return refuse(broken.line, broken.message.replace(/\.$/, ""));
  if (rowCount === 0) return refuse(1, takeHeadings([]) ?? "");
  return { ok: true, series: { intervalS, currentA } };
}

/** Date and time of one column, such as 2026-01-05T00:30:00Z. */
function parted(cell: string): readonly [date: string, time: string] {
  const [date = "", time = ""] = cell.trim().split(/[T ]/, 2);
  return [date, time.replace(/Z$/, "")];
}

const refuse = (line: number, what: string): SeriesResult => ({
  ok: false,
  message: line === 0 ? what : `line ${line}: ${what}`,
});
