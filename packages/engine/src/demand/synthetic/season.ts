export const YEAR_DAYS = 365;
/** The day of deepest winter: 15 January. */
const MIDWINTER_DAY = 14;

/**
 * How far into winter a day lies: 1 at midwinter, −1 at midsummer, 0 on the mean over a year.
 *
 * @param day Day from 1 January as 0; a year has 365.
 *
 * @example
 * winterness(14); // → 1
 */
export const winterness = (day: number): number =>
  Math.cos((2 * Math.PI * ((day % YEAR_DAYS) - MIDWINTER_DAY)) / YEAR_DAYS);

/** Whether a day is a Saturday or a Sunday; day 0 is a Monday. */
export const isWeekend = (day: number): boolean => day % 7 >= 5;
