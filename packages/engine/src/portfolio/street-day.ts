/** A number of homes and how high they rose together on one day. */
export interface NumberOfHomes {
  readonly homes: number;
  /** Energy of the highest minute of the first so many homes together. [J, whole] */
  readonly minuteJ: number;
  /** Energy of the highest half-hour of them. [J, whole] */
  readonly halfHourJ: number;
}

/** What one day of one drawn street came to. */
export interface StreetDay {
  readonly draw: number;
  /** Place of the day in the season, from 0. */
  readonly dayIndex: number;
  readonly byNumber: readonly NumberOfHomes[];
  /** Highest current of the feeder's fullest line, and the minute of the day it came in. [A] */
  readonly lineA: number;
  readonly minute: number;
  /** Minutes in which some line carried more than the feeder's limit; 0 where none is set. */
  readonly minutesOver: number;
  readonly energyJ: number;
  readonly carSessions: number;
  readonly carWantedJ: number;
  readonly carDeliveredJ: number;
  /** Minutes of homes above their own supply's limit, all homes together. */
  readonly homeMinutesOver: number;
  /** Those of them in which the building was above it by itself. */
  readonly homeMinutesOverByBuilding: number;
}

/** The numbers of homes that are looked at: 1, 2, 5, 10, 20, 50 and so on, and all of them. */
export function numbersOfHomes(homes: number): readonly number[] {
  const numbers = [1, 10, 100, 1000, 10_000].flatMap((ten) => [ten, 2 * ten, 5 * ten]);
  return [...numbers.filter((number) => number < homes), homes];
}
