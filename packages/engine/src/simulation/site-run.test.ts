import { describe, expect, it } from "vitest";
import { promptControl } from "../testing/prompt-control.ts";
import type { CarPlan, SitePlan } from "./site-plan.ts";
import { addSessions, createSiteRun, finishRun, runDay, type SiteRun } from "./site-run.ts";

const DAY_S = 86_400;
const AT_ONCE = { deadS: 0, fallAPerS: 1000, riseAPerS: 1000, resumeS: 0 };
const car = (point: number, changed: Partial<CarPlan> = {}): CarPlan => ({
  id: `car-${point}`,
  point,
  onboardA: 32,
  lineCount: 1,
  response: AT_ONCE,
  taperKwh: 0,
  ...changed,
});

/** Two points on one line, one car at each. */
function siteOf({
  control = {},
  ...changed
}: Partial<Omit<SitePlan, "control">> & { readonly control?: Partial<SitePlan["control"]> } = {}): SitePlan {
  return {
    lineCount: 1,
    stepS: 1,
    voltageV: 230,
    supplyLimitA: 60,
    listExcursionsFromS: 0,
    control: {
      ...promptControl,
      fallbackA: null,
      ...control,
    },
    points: [
      { id: "first", lines: [0], ratedA: 32 },
      { id: "second", lines: [0], ratedA: 32 },
    ],
    cars: [car(0), car(1)],
    fuse: null,
    bodies: [],
    faults: [],
    ...changed,
  };
}

/** Runs a day with the building at the same current throughout, or by minute. */
function runOf(
  plan: SitePlan,
  sessions: Parameters<typeof addSessions>[1],
  building: (minute: number) => number,
  watch?: (run: SiteRun, minute: number) => void,
): SiteRun {
  const run = createSiteRun(plan);
  addSessions(run, sessions);
  let minute = 0;
  const buildingA = Float64Array.from({ length: 1440 }, (_, minute) => building(minute));
  runDay(run, buildingA, () => watch?.(run, minute++));
  finishRun(run);
  return run;
}

describe("a car that leaves", () => {
  it("makes room for the other at once, even where it took nothing", () => {
    // 14 A for two: 7 A each, and the one that comes second never begins to draw.
    const slow = { ...AT_ONCE, resumeS: 10_000 };
    const plan = siteOf({ cars: [car(0), car(1, { response: slow })] });
    const sessions = [
      { car: 0, startS: 60, untilS: 30_000, wantedKwh: 50 },
      { car: 1, startS: 120, untilS: 3600 + 5, wantedKwh: 50 },
    ];
    const seen: number[] = [];
    const run = runOf(
      plan,
      sessions,
      () => 46,
      ({ state }, minute) => {
        if (minute === 1 || minute === 30 || minute === 60) seen.push(state.points.carA[0] as number);
      },
    );
    expect(seen).toEqual([14, 7, 14]);
    expect(run.results[0]?.deliveredKwh).toBe(0);
  });
});

describe("a car that comes", () => {
  it("notices what is offered now, not what was on its way to the one before", () => {
    const slow = { ...AT_ONCE, deadS: 40 };
    const plan = siteOf({
      control: { riseStepA: 1 },
      cars: [car(0, { response: slow }), car(0, { response: slow })],
    });
    const sessions = [
      { car: 0, startS: 60, untilS: 675, wantedKwh: 50 },
      { car: 1, startS: 675, untilS: 719, wantedKwh: 50 },
    ];
    // From 10 A the offer rises by one a second from second 661 on.
    const { results } = runOf(plan, sessions, (minute) => (minute === 10 ? 50 : 30));
    // 24 A for its forty seconds, then what was offered forty seconds before.
    expect(results[1]?.deliveredKwh).toBeCloseTo(((40 * 24 + 25 + 26 + 27 + 28) * 230) / 3.6e6, 12);
  });
});

describe("a time-out shorter than the time between readings", () => {
  it("goes off between them, though nothing changes", () => {
    const plan = siteOf({
      control: { readEveryS: 40, decideEveryS: 1, fallbackA: 6, fallbackAfterS: 10 },
      cars: [car(0, { onboardA: 6 }), car(1)],
    });
    const one = [{ car: 0, startS: 0, untilS: DAY_S, wantedKwh: 500 }];
    const seen: number[] = [];
    runOf(
      plan,
      one,
      () => 40,
      ({ state }, minute) => {
        if (minute > 9 && minute < 12) seen.push(state.points.offeredA[0] as number);
      },
    );
    // The car takes 6 A whatever it is offered. At second 659 the reading is 19 s old; at 719 it is 39 s old.
    expect(seen).toEqual([6, 6]);
  });
});

describe("a meter that freezes", () => {
  it("is taken to hold the car that the charge point reports, so its current is given out twice", () => {
    const plan = siteOf({ faults: [{ kind: "reading-frozen", fromS: 600, untilS: 1200 }] });
    const one = [{ car: 0, startS: 900, untilS: DAY_S, wantedKwh: 500 }];
    const seen: number[] = [];
    runOf(
      plan,
      one,
      () => 40,
      ({ state }, minute) => {
        if (minute === 15 || minute === 20) seen.push(state.points.carA[0] as number);
      },
    );
    // 40 A was shown without the car: 20 A are offered, and with those in the 40 A there seems to be room for 40.
    expect(seen).toEqual([32, 20]);
  });
});

describe("the limit", () => {
  it("is not passed by the rounding of an offer", () => {
    const one = [{ car: 0, startS: 0, untilS: DAY_S, wantedKwh: 500 }];
    const run = runOf(siteOf(), one, () => 44.00000000000001);
    expect(run.state.points.carA[0]).toBe(0);
    expect(run.days[0]?.mostA[0]).toBeGreaterThan(60);
    expect(run.state.lines.overSteps[0]).toBe(0);
    expect(runOf(siteOf(), one, () => 60.001).state.lines.overSteps[0]).toBe(DAY_S);
  });
  it("is not passed by a building that draws just as much; what is over then is the car's", () => {
    const one = [{ car: 0, startS: 0, untilS: DAY_S, wantedKwh: 500 }];
    const { overSteps, aloneSteps } = runOf(siteOf(), one, (minute) => (minute < 600 ? 40 : 60)).state.lines;
    // The step in which the building rises, before the car has heard of it.
    expect([overSteps[0], aloneSteps[0]]).toEqual([1, 0]);
  });
});

describe("a meter that averages", () => {
  it("is read when it is due, while nobody is there", () => {
    const plan = siteOf({ control: { averageS: 50, readEveryS: 45 } });
    const seen: number[] = [];
    runOf(
      plan,
      [],
      (minute) => (minute === 1 ? 30 : 10),
      ({ state }, minute) => {
        if (minute === 2) seen.push(state.reading.totalA[0] as number);
      },
    );
    // Readings at 0, 45, 90, 135 s: the step of 135 s and the 49 before it, 34 of them in the minute of 30 A.
    expect(seen).toEqual([(34 * 30 + 16 * 10) / 50]);
  });
});

describe("a charge point that is taken", () => {
  it("makes the next car wait until the other leaves; one that comes between two steps has not waited", () => {
    const sessions = [
      { car: 0, startS: 3600.5, untilS: 7200, wantedKwh: 50 },
      { car: 0, startS: 5400, untilS: 10_800, wantedKwh: 5 },
      { car: 0, startS: 6000, untilS: 7000, wantedKwh: 6 },
    ];
    const { results } = runOf(siteOf(), sessions, () => 0);
    const waited = Object.fromEntries(results.map(({ wantedKwh, waitedS }) => [wantedKwh, waitedS]));
    // The third would have left before it could begin: it waited all its stay.
    expect(waited).toEqual({ 50: 0, 5: 1800, 6: 1000 });
  });
  it("waited where it came a step before it was free; of two that come together the one that leaves first begins", () => {
    const sessions = [
      { car: 0, startS: 3600, untilS: 7200, wantedKwh: 50 },
      { car: 0, startS: 7199, untilS: 9000, wantedKwh: 7 },
      { car: 0, startS: 10_000, untilS: 30_000, wantedKwh: 8 },
      { car: 0, startS: 10_000, untilS: 20_000, wantedKwh: 9 },
    ];
    const { results } = runOf(siteOf(), sessions, () => 0);
    const waited = Object.fromEntries(results.map(({ wantedKwh, waitedS }) => [wantedKwh, waitedS]));
    expect(waited).toEqual({ 50: 0, 7: 1, 9: 0, 8: 10_000 });
  });
});

describe("the end of the run", () => {
  it("counts a session as far as it went, one that waits as nothing, and none that would begin later", () => {
    const sessions = [
      { car: 0, startS: DAY_S - 3600, untilS: DAY_S + 3600, wantedKwh: 50 },
      { car: 0, startS: DAY_S - 1800, untilS: DAY_S + 7200, wantedKwh: 5 },
      { car: 1, startS: DAY_S, untilS: DAY_S + 7200, wantedKwh: 5 },
    ];
    const { results } = runOf(siteOf(), sessions, () => 0);
    expect(results.map(({ wantedKwh }) => wantedKwh)).toEqual([50, 5]);
    // One second passes from the first offer being decided to its being heard.
    expect(results[0]?.deliveredKwh).toBeCloseTo((32 * 230 * 3599) / 3.6e6, 9);
    expect(results[1]).toMatchObject({ deliveredKwh: 0, isFull: false });
  });
});

describe("a charge point that hears nothing", () => {
  it("takes the fallback, but no more than its rating", () => {
    const plan = siteOf({
      control: { fallbackA: 63, fallbackAfterS: 10 },
      points: [{ id: "first", lines: [0], ratedA: 16 }],
      cars: [car(0)],
      faults: [{ kind: "manager-restarted", fromS: 600, untilS: DAY_S }],
    });
    const seen: number[] = [];
    runOf(
      plan,
      [{ car: 0, startS: 0, untilS: DAY_S, wantedKwh: 500 }],
      () => 50,
      ({ state }, minute) => {
        if (minute === 9 || minute === 10) seen.push(state.points.carA[0] as number);
      },
    );
    expect(seen).toEqual([10, 16]);
  });
});

describe("a command that takes no time", () => {
  it("is heard with the next step, like one of a step, and its silence as late", () => {
    const deliveredBy = (commandS: number) => {
      const plan = siteOf({
        control: { commandS, fallbackA: 6, fallbackAfterS: 10 },
        faults: [{ kind: "manager-restarted", fromS: 600, untilS: DAY_S }],
      });
      const one = [{ car: 0, startS: 0, untilS: DAY_S, wantedKwh: 500 }];
      return runOf(plan, one, () => 40).results[0]?.deliveredKwh;
    };
    expect(deliveredBy(0)).toBe(deliveredBy(1));
  });
});

describe("a car that ignores its offer", () => {
  it("still takes less by itself as it fills", () => {
    const plan = siteOf({
      cars: [car(0, { taperKwh: 2 })],
      faults: [{ kind: "car-ignores-offer", point: 0, fromS: 0, untilS: DAY_S }],
    });
    const run = runOf(plan, [{ car: 0, startS: 0, untilS: DAY_S, wantedKwh: 2 }], () => 60);
    expect(run.results[0]?.isFull).toBe(true);
    // It begins to taper at once, and energy left falls by exp(−t/τ) to a twentieth: τ = 2 kWh / (32 A · 230 V).
    const tauS = (2 * 3.6e6) / (32 * 230);
    // Steps of a second instead of a curve, and one to stop in.
    expect(Math.abs((run.state.points.chargingSteps[0] as number) - tauS * Math.log(20))).toBeLessThan(3);
  });
});
