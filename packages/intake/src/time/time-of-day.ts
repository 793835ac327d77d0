/** A time as it is written: seconds of the day, and the offset from UTC where one stands with it. */
export interface WrittenTime {
  /** 0 to 86400, which is the midnight that ends the day; -1 where the text is no time. */
  secondS: number;
  /** Offset from UTC. [min]; NO_OFFSET where none is written. */
  offsetMin: number;
}

/** Stands for an offset that is not written. */
export const NO_OFFSET = 32_767;

const SLOW =
  /^(\d{1,2}):?(\d{2})(?::(\d{2})(?:[.,]0{1,9})?)? ?(am|pm)?\s?(z|utc|gmt|[+-]\d{2}(?::?\d{2})?)?$/i;

/**
 * Reads a time such as `00:30`, `0:30:00`, `0030`, `24:00`, `12:30 pm` or `00:30:00+01:00`.
 *
 * @param into Takes the result; handed in because this runs once a row.
 */
export function readWrittenTime(text: string, into: WrittenTime): void {
  into.offsetMin = NO_OFFSET;
  const isUtc = text.charCodeAt(text.length - 1) === 90;
  into.secondS = fastTime(isUtc ? text.slice(0, -1) : text);
  if (into.secondS >= 0) {
    if (isUtc) into.offsetMin = 0;
    return;
  }
  const parts = SLOW.exec(text.trim());
  if (parts === null) return;
  const [, hourText, minute, second, half, zone] = parts;
  let hour = Number(hourText);
  if (half !== undefined) {
    if (hour < 1 || hour > 12) return;
    hour = (hour % 12) + (half.toLowerCase() === "pm" ? 12 : 0);
  }
  into.secondS = secondsOf(hour, Number(minute), Number(second ?? 0));
  if (zone === undefined) return;
  const [, sign = "+", zoneHour = "0", zoneMinute] = /^([+-])(\d{2}):?(\d{2})?$/.exec(zone) ?? [];
  into.offsetMin = (sign === "-" ? -1 : 1) * (Number(zoneHour) * 60 + Number(zoneMinute ?? 0));
  if (Math.abs(into.offsetMin) > 18 * 60) into.secondS = -1;
}

/** `HH:MM` and `HH:MM:SS`, without a pattern. */
function fastTime(text: string): number {
  if ((text.length !== 5 && text.length !== 8) || text.charCodeAt(2) !== 58) return -1;
  const hour = two(text, 0);
  const minute = two(text, 3);
  if (text.length === 5) return secondsOf(hour, minute, 0);
  return text.charCodeAt(5) === 58 ? secondsOf(hour, minute, two(text, 6)) : -1;
}

function two(text: string, at: number): number {
  const tens = text.charCodeAt(at) - 48;
  const ones = text.charCodeAt(at + 1) - 48;
  return tens >= 0 && tens <= 9 && ones >= 0 && ones <= 9 ? tens * 10 + ones : Number.NaN;
}

function secondsOf(hour: number, minute: number, second: number): number {
  const isMidnightAfter = hour === 24 && minute === 0 && second === 0;
  return (hour < 24 || isMidnightAfter) && minute < 60 && second < 60
    ? hour * 3600 + minute * 60 + second
    : -1;
}

/** Seconds after midnight of a cell that holds a time without an offset, before 24:00; null for any other cell. */
export function secondOfDay(cell: string): number | null {
  const read: WrittenTime = { secondS: -1, offsetMin: NO_OFFSET };
  readWrittenTime(cell.trim(), read);
  const { secondS, offsetMin } = read;
  return secondS >= 0 && secondS < 86_400 && offsetMin === NO_OFFSET ? secondS : null;
}
