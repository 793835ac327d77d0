import { describe, expect, it } from "vitest";
import { smallSite } from "../testing/small-site.ts";
import { planLatency, slowestCar } from "./plan-latency.ts";
import type { CarPlan, SitePlan } from "./site-plan.ts";

const [car] = smallSite.cars as readonly [CarPlan];
const control = { ...smallSite.control, averageS: 1, readEveryS: 5, decideEveryS: 2, commandS: 3 };
const plan = (changes: Partial<SitePlan["control"]>, more: Partial<SitePlan> = {}): SitePlan => ({
  ...smallSite,
  control: { ...control, ...changes },
  ...more,
});
const slow = { ...car, id: "slow", onboardA: 16, response: { ...car.response, deadS: 2, fallAPerS: 4 } };

describe("planLatency", () => {
  it("adds the delays and the slowest car: 1 + 5 + 2 + 3 + 2 + 16/4 s", () => {
    const cars = [car, slow, car];
    expect(slowestCar({ ...smallSite, cars })).toBe(slow);
    expect(planLatency(plan({}, { cars }))?.totalS).toBe(17);
  });
  it("takes the car that is slowest to fall, however slowly another rises", () => {
    const rising = { ...car, id: "rising", response: { ...car.response, riseAPerS: 0.1 } };
    expect(slowestCar({ ...smallSite, cars: [rising, slow, rising] })).toBe(slow);
  });
  it.each([
    ["an integrating law", { law: { kind: "integrating", gain: 0.2 } as const }, {}],
    [
      "a car that follows no offer",
      {},
      {
        faults: [
          { kind: "car-ignores-offer", point: 0, fromS: 0, untilS: Number.POSITIVE_INFINITY } as const,
        ],
      },
    ],
    ["a fallback that is taken between readings", { fallbackAfterS: 4, fallbackA: 16 }, {}],
  ])("bounds nothing for %s", (_what, changes, more) => expect(planLatency(plan(changes, more))).toBeNull());
  it.each([
    ["without a fallback to take", { fallbackAfterS: 4, fallbackA: null }],
    ["where it decides on readings only", { fallbackAfterS: 4, decideEveryS: 0 }],
    ["where the next reading comes in time", { fallbackAfterS: 5 }],
  ])("bounds it %s", (_what, changes) => expect(planLatency(plan(changes))?.totalS).toBeGreaterThan(0));
});
