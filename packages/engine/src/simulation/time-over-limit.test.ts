import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { blindLatencyBound, type ControlSettings, latencyBound } from "../limiter/index.ts";
import { promptControl } from "../testing/prompt-control.ts";
import type { CarPlan, SitePlan } from "./site-plan.ts";
import { addSessions, createSiteRun, finishRun, runDay } from "./site-run.ts";
import type { TimedFault } from "./timed-fault.ts";

/** Whole days, so few of them; 1,500 of each passed when the bounds were last changed. */
const RUNS = 20;
const DAY_S = 86_400;
const LIMIT_A = 60;

const settings: ControlSettings = {
  ...promptControl,
  limitA: LIMIT_A,
  averageS: 1,
  readEveryS: 5,
  fallbackA: null,
};
const AT_ONCE = { deadS: 0, fallAPerS: 1e9, riseAPerS: 1e9, resumeS: 0 };

/** Longest time over the limit in a day with one car that never has enough. [s] */
function longestOverS(day: {
  readonly stepS: number;
  readonly control: ControlSettings;
  readonly response: CarPlan["response"];
  readonly onboardA: number;
  readonly buildingA: Float64Array;
  readonly faults?: readonly TimedFault[];
}): number {
  const plan: SitePlan = {
    lineCount: 1,
    stepS: day.stepS,
    voltageV: 230,
    supplyLimitA: LIMIT_A,
    listExcursionsFromS: DAY_S,
    control: day.control,
    points: [{ id: "point", lines: [0], ratedA: 32 }],
    cars: [
      { id: "car", point: 0, onboardA: day.onboardA, lineCount: 1, response: day.response, taperKwh: 0 },
    ],
    fuse: null,
    bodies: [],
    faults: day.faults ?? [],
  };
  const run = createSiteRun(plan);
  addSessions(run, [{ car: 0, startS: 0, untilS: DAY_S, wantedKwh: 10_000 }]);
  runDay(run, day.buildingA);
  finishRun(run);
  expect(run.results[0]?.deliveredKwh).toBeGreaterThan(1);
  return (run.state.lines.longestSteps[0] as number) * day.stepS;
}

describe("a load step from 20 to 60 A, limit 60 A, read every 5 s, sensing and command 1 s each", () => {
  it("is over the limit for up to 6.7 s, and never for the 7 s of the bound, whatever the phase", () => {
    const stepS = 0.1;
    // Steps 601.1 s apart come at each of the fifty phases of the reading.
    const high = (interval: number) => interval % 6011 >= 3000;
    const buildingA = Float64Array.from({ length: DAY_S / stepS }, (_, interval) =>
      high(interval) ? 60 : 20,
    );
    const longestS = longestOverS({ stepS, control: settings, response: AT_ONCE, onboardA: 32, buildingA });
    // By hand: nine tenths of the average leave less than 6 A, which is 8 steps after the first one over; it is
    // read up to 49 steps after that and heard 10 after that. Exact but for steps of 0.1 in binary.
    expect(longestS).toBeCloseTo(6.7, 9);
    const bound = latencyBound({
      settings,
      car: { ...AT_ONCE, fallAPerS: Number.POSITIVE_INFINITY },
      fallA: 32,
    });
    expect(longestS).toBeLessThanOrEqual(bound.totalS);
  });
});

const chain = fc.record({
  averageS: fc.nat(30),
  readEveryS: fc.integer({ min: 1, max: 30 }),
  decideEveryS: fc.nat(30),
  commandS: fc.integer({ min: 0, max: 10 }),
  marginA: fc.integer({ min: 0, max: 5 }),
  riseHoldS: fc.nat(60),
  riseStepA: fc.integer({ min: 1, max: 32 }),
  minimumOffS: fc.nat(60),
});
const response = fc.record({
  deadS: fc.nat(10),
  fallAPerS: fc.constantFrom(0.8, 1, 4, 16, 1e9),
  riseAPerS: fc.constantFrom(1, 4, 1e9),
  resumeS: fc.nat(20),
});
const onboardA = fc.constantFrom(16, 20, 32);
/** Exact in binary, so that a building and an offer that make the limit together do not pass it by a rounding error. */
const quarters = (min: number, max: number) => fc.integer({ min: 4 * min, max: 4 * max }).map((n) => n / 4);
/** Pairs of a quiet and a busy time; the quiet one is long enough for the slowest chain and car to come to rest. */
const loads = fc.array(
  fc.record({
    lowA: quarters(0, 40),
    highA: quarters(20, LIMIT_A),
    quietS: fc.integer({ min: 900, max: 1300 }),
    busyS: fc.integer({ min: 300, max: 500 }),
  }),
  { minLength: 20, maxLength: 20 },
);
type Loads = typeof loads extends fc.Arbitrary<infer T> ? T : never;

/** At one-second intervals; says when each busy time begins. */
function profile(loads: Loads): { readonly buildingA: Float64Array; readonly busyFromS: readonly number[] } {
  const buildingA = new Float64Array(DAY_S);
  const busyFromS: number[] = [];
  let atS = 0;
  for (const { lowA, highA, quietS, busyS } of loads) {
    buildingA.fill(lowA, atS, atS + quietS);
    buildingA.fill(highA, atS + quietS, atS + quietS + busyS);
    busyFromS.push(atS + quietS);
    atS += quietS + busyS;
  }
  return { buildingA, busyFromS };
}

describe("the direct law and one car, a building that stays under the limit", () => {
  it("is never over the limit for longer than the bound of its chain", () => {
    fc.assert(
      fc.property(chain, response, onboardA, loads, (changed, response, onboardA, loads) => {
        const control = { ...settings, ...changed };
        const bound = latencyBound({ settings: control, car: response, fallA: onboardA });
        const { buildingA } = profile(loads);
        const longestS = longestOverS({ stepS: 1, control, response, onboardA, buildingA });
        // A fall that ends within a step counts to the end of it.
        expect(longestS).toBeLessThanOrEqual(Math.ceil(bound.totalS - 1e-9));
      }),
      { numRuns: RUNS },
    );
  }, 60_000);
  it("comes near the bound, so the bound says something", () => {
    const control = { ...settings, averageS: 20, readEveryS: 29, decideEveryS: 30, commandS: 10 };
    const response = { ...AT_ONCE, deadS: 10, fallAPerS: 1 };
    const bound = latencyBound({ settings: control, car: response, fallA: 32 });
    const { buildingA } = profile(
      Array.from({ length: 60 }, (_, at) => ({ lowA: 10, highA: 60, quietS: 1000, busyS: 400 + (at % 31) })),
    );
    const longestS = longestOverS({ stepS: 1, control, response, onboardA: 32, buildingA });
    expect(longestS).toBeLessThanOrEqual(bound.totalS);
    expect(longestS).toBeGreaterThan(0.85 * bound.totalS);
  });
});

describe("readings or commands that stop about when the load steps up", () => {
  const stop = fc.record({
    kind: fc.constantFrom("bus-lost" as const, "meter-lost" as const, "manager-restarted" as const),
    beforeS: fc.integer({ min: -60, max: 60 }),
  });
  it("is never over the limit for longer than the bound with the time-out", () => {
    fc.assert(
      fc.property(
        chain,
        fc.integer({ min: 1, max: 60 }),
        response,
        onboardA,
        loads,
        fc.array(stop, { minLength: 20, maxLength: 20 }),
        (changed, laterS, response, onboardA, loads, stops) => {
          // A time-out no longer than the time between readings would go off with nothing wrong.
          const fallbackAfterS = Math.max(changed.readEveryS, changed.decideEveryS) + laterS;
          const control = { ...settings, ...changed, fallbackA: 0, fallbackAfterS };
          const bound = blindLatencyBound({ settings: control, car: response, fallA: onboardA });
          const { buildingA, busyFromS } = profile(loads);
          const faults = stops.map(({ kind, beforeS }, at): TimedFault => {
            const fromS = (busyFromS[at] as number) - beforeS;
            return { kind, fromS, untilS: fromS + 350 };
          });
          const longestS = longestOverS({ stepS: 1, control, response, onboardA, buildingA, faults });
          expect(longestS).toBeLessThanOrEqual(Math.ceil((bound?.totalS as number) - 1e-9));
        },
      ),
      { numRuns: RUNS },
    );
  }, 60_000);
});
