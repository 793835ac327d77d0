import type { StateTimes } from "../limiter/index.ts";
import type { Study } from "../rules/index.ts";
import { isKnown } from "../worked/index.ts";

/**
 * Up to where an excursion is usual, and beyond where one is too long: one pair for runs, sweep and list.
 *
 * @returns Infinity for a figure that is not known. [s]
 */
export function excursionTimes({ figures }: Study): StateTimes {
  const [usual, longest] = [figures("limiterResponseTypicalS"), figures("limiterResponseLongestS")];
  return {
    usualS: isKnown(usual) ? usual.value : Number.POSITIVE_INFINITY,
    longestS: isKnown(longest) ? longest.value : Number.POSITIVE_INFINITY,
  };
}
