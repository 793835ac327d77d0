/**
 * Calendar dates as ISO text, `2026-11-25`. They sort as text; this file does the arithmetic that
 * sorting cannot. No clock is read anywhere in the engine: today's date is always an argument.
 *
 * @module
 */
const MS_PER_DAY = 86_400_000;
const epochDay = (dateIso: string): number => Date.parse(`${dateIso}T00:00:00Z`) / MS_PER_DAY;
const fromEpochDay = (day: number): string => new Date(day * MS_PER_DAY).toISOString().slice(0, 10);

/** True for a date that exists in the calendar, from year 1 to 9999. */
export function isIsoDate(text: string): boolean {
  if (!/^\d{4}-\d{2}-\d{2}$/.test(text) || text < "0001") return false;
  const day = epochDay(text);
  return Number.isFinite(day) && fromEpochDay(day) === text;
}

/** The date a number of calendar days later (earlier when negative). */
export const addDays = (dateIso: string, days: number): string => fromEpochDay(epochDay(dateIso) + days);

/** Weekdays, Monday to Friday, that pass whole between two dates; neither date itself counts. */
export function weekdaysBetween(fromIso: string, toIso: string): number {
  const whole = daysBetween(fromIso, toIso) - 1;
  if (whole <= 0) return 0;
  const weeks = Math.floor(whole / 7);
  const rest = Array.from({ length: whole % 7 }, (_, index) => epochDay(fromIso) + 1 + index);
  return weeks * 5 + rest.filter(isWeekday).length;
}

/** Day 0, 1 January 1970, was a Thursday. */
const isWeekday = (day: number): boolean => (((day + 3) % 7) + 7) % 7 < 5;

/** Calendar days from one date to another; positive when `toIso` is later. */
export const daysBetween = (fromIso: string, toIso: string): number => epochDay(toIso) - epochDay(fromIso);
