import { blindLatencyBound, longestTimeOutS } from "../limiter/index.ts";
import type { Study } from "../rules/index.ts";
import { type SitePlan, slowestCar } from "../simulation/index.ts";
import { excursionTimes } from "./excursion-times.ts";

/**
 * Longest time-out with which a site's fallback is taken within the time that an operator allows at most, however
 * the building rises.
 *
 * @returns In whole seconds; null where none is short enough, or the longest time allowed is not known. [s]
 */
export function mostTimeOutS(study: Study, plan: SitePlan): number | null {
  const { response, onboardA } = slowestCar(plan);
  const control = { ...plan.control, fallbackA: 0 };
  const blind = blindLatencyBound({ settings: control, car: response, fallA: onboardA });
  return blind === null ? null : longestTimeOutS(blind, control, excursionTimes(study).longestS);
}
