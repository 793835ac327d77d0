/**
 * How late a plan acts: from its delays alone, without running it.
 *
 * @module
 */
import { type LatencyBound, latencyBound, timesOutBetweenReadings } from "../limiter/index.ts";
import type { CarPlan, SitePlan } from "./site-plan.ts";

/** Time from a lower offer until the whole current of a car is gone. [s] */
export const answerS = ({ response, onboardA }: CarPlan): number =>
  response.deadS + onboardA / response.fallAPerS;

/** The car of a plan that takes longest to follow. The plan has a car at least. */
export const slowestCar = ({ cars }: SitePlan): CarPlan =>
  cars.reduce((a, b) => (answerS(a) > answerS(b) ? a : b), cars[0] as CarPlan);

/**
 * Longest time over the limit after a load step, from the delays of a plan alone.
 *
 * @returns Null where nothing bounds it: the law integrates, a fallback is taken between readings with nothing
 *   wrong, or a car follows no offer at all.
 */
export function planLatency(plan: SitePlan): LatencyBound | null {
  const { control, faults } = plan;
  if (control.law.kind !== "direct" || faults.length > 0) return null;
  if (control.fallbackA !== null && timesOutBetweenReadings(control)) return null;
  const { response, onboardA } = slowestCar(plan);
  return latencyBound({ settings: control, car: response, fallA: onboardA });
}
