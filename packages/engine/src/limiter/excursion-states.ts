/**
 * States of a limitation scheme by the length of its excursions.
 *
 * Up to the usual time an excursion belongs to normal running. A longer one, up to the longest time, is an event
 * of state 2. Over the longest time, or with the third event within 24 hours, the scheme goes to state 3 and
 * stays locked for four hours.
 *
 * Source: [operator-limitation-guidance] for 15 s and 60 s; the mapping to states, the count and the lock as
 * quoted at second hand: read the recommendation itself before a verdict rests on them.
 *
 * @module
 */

/** Times that part the states; the guidance gives 15 s and 60 s. */
export interface StateTimes {
  /** Up to here an excursion belongs to normal running. [s] */
  readonly usualS: number;
  /** Beyond here it locks by itself. [s] */
  readonly longestS: number;
}

export interface ClassedExcursion {
  readonly startS: number;
  readonly lengthS: number;
  readonly state: 1 | 2 | 3;
  /** End of the lock that begins with it; null without one. [s] */
  readonly lockedUntilS: number | null;
}

const DAY_S = 86_400;
const LOCK_S = 4 * 3600;
const EVENTS_THAT_LOCK = 3;

/** @param excursions In the order of time. */
export function classExcursions(
  excursions: readonly { readonly startS: number; readonly lengthS: number }[],
  { usualS, longestS }: StateTimes,
): readonly ClassedExcursion[] {
  let events: number[] = [];
  return excursions.map(({ startS, lengthS }) => {
    if (lengthS <= usualS) return { startS, lengthS, state: 1, lockedUntilS: null };
    events = [...events.filter((eventS) => startS - eventS < DAY_S), startS];
    const isLocked = lengthS > longestS || events.length >= EVENTS_THAT_LOCK;
    if (!isLocked) return { startS, lengthS, state: 2, lockedUntilS: null };
    events = [];
    return { startS, lengthS, state: 3, lockedUntilS: startS + lengthS + LOCK_S };
  });
}
