import { describe, expect, it } from "vitest";
import { type Job, known, NOT_RECORDED } from "../job/index.ts";
import { assessedExample } from "../testing/examples.ts";
import { knownValue } from "../testing/plain.ts";
import { setAt } from "../testing/set-at.ts";
import { soundJob } from "../testing/sound-job.ts";
import { plannedSite, studied } from "../testing/studied.ts";
import { sitePlanOf } from "./site-plan-of.ts";

const planOf = (job: Job) => plannedSite(studied(job));
const with_ = (...changes: readonly (readonly [string, unknown])[]): Job =>
  changes.reduce((job, [path, value]) => setAt(job, path, value), soundJob());
const car: Job["cars"][number] = {
  id: "estate",
  chargePoint: "car",
  onboardA: known(16),
  lineCount: known(1),
  batteryKwh: known(40),
  sessionKwh: known(9),
  chargesPerWeek: known(5),
  arrives: known("17:45"),
  leaves: known("06:15"),
};

describe("what is presumed", () => {
  it("is law, sharing and a car's lines, as far as nobody recorded them", () => {
    expect(planOf(soundJob()).presumed).toEqual(["direct-law"]);
    expect(planOf(with_(["limiter.law", known("direct")])).presumed).toEqual([]);
    // Two charge points, one of them on three lines, and no car recorded.
    expect(plannedSite(assessedExample("village-hall").study).presumed).toEqual([
      "direct-law",
      "equal-sharing",
      "car-on-every-line",
    ]);
  });
  it("is a whole manager where the job has none", () => {
    expect(planOf({ ...soundJob(), limiter: null }).isManagerImagined).toBe(true);
    expect(planOf(soundJob()).isManagerImagined).toBe(false);
  });
});

describe("sitePlanOf", () => {
  it("takes limit, fallback, fuse and voltage from the job", () => {
    const { plan } = planOf(soundJob());
    expect(plan).toMatchObject({
      lineCount: 1,
      voltageV: 230,
      supplyLimitA: 100,
      control: { limitA: 90, marginA: 0, fallbackA: 16, law: { kind: "direct" } },
      points: [{ id: "car", lines: [0], ratedA: 32 }],
      readsLate: true,
    });
    expect(plan.fuse?.band.fast[0]).toEqual([125, 7200]);
  });

  it("takes the manager's times where they are recorded, and figures where not; and tells which", () => {
    const { plan, rests } = planOf(
      with_(["limiter.readEveryS", known(2)], ["limiter.law", known("integrating")]),
    );
    expect(plan.control).toMatchObject({
      readEveryS: 2,
      commandS: 3,
      law: { kind: "integrating", gain: 0.25 },
    });
    const of = (label: string) => rests.find((quantity) => quantity.label.startsWith(label))?.kind;
    expect([of("time between two readings"), of("time from a decision")]).toEqual(["fact", "figure"]);
  });

  it("takes each time of the manager from its own fact, and shares equally where nobody said how", () => {
    const names = [
      "averageS",
      "readEveryS",
      "decideEveryS",
      "commandS",
      "riseHoldS",
      "minimumOffS",
      "fallbackAfterS",
    ] as const;
    const told = Object.fromEntries(names.map((name, at) => [name, 11 + at]));
    const job = with_(...names.map((name) => [`limiter.${name}`, known(told[name])] as const));
    expect(planOf(job).plan.control).toMatchObject({ ...told, sharing: "equal" });
    expect(planOf(with_(["limiter.sharing", known("first-come")])).plan.control.sharing).toBe("first-come");
  });

  it("lists every excursion that is longer than usual", () => {
    const usual = studied(soundJob()).figures("limiterResponseTypicalS");
    expect(planOf(soundJob()).plan.listExcursionsFromS).toBe(knownValue(usual));
  });

  it("puts a car nobody described at a charge point without one", () => {
    const { plan, habits } = planOf(soundJob());
    expect(plan.cars).toMatchObject([{ point: 0, onboardA: 32, lineCount: 1, taperKwh: 3 }]);
    expect(habits).toMatchObject([
      { chargesPerWeek: 3, arrivesS: 64_800, leavesS: 27_000, medianKwh: 15, mostKwh: 60 },
    ]);
  });

  it("delays a start at random by what the charge point does, and by the figure where nobody recorded it", () => {
    const delayOf = (fact: unknown) =>
      planOf(with_(["nodes[car].smart.randomDelayDefaultS", fact])).habits.map(
        ({ randomDelayS }) => randomDelayS,
      );
    expect([delayOf(known(300)), delayOf(NOT_RECORDED)]).toEqual([[300], [600]]);
  });

  it("takes a car as it was described", () => {
    const { plan, habits } = planOf(with_(["cars", [car]]));
    expect(plan.cars).toMatchObject([{ id: "estate", onboardA: 16, taperKwh: 2 }]);
    expect(habits).toMatchObject([
      { chargesPerWeek: 5, arrivesS: 63_900, leavesS: 22_500, medianKwh: 9, mostKwh: 40 },
    ]);
  });

  it("makes a body of the tails, by its own conductor alone, and of the charge point's cable", () => {
    const { bodies } = planOf(soundJob()).plan;
    const tails = bodies.find(({ carries }) => carries === "supply");
    // 40 K · Qc / ρ70 · (S/I)²: 25 mm² at 114 A is 322 s ([house-methods], facts as recalled).
    expect(tails?.tauS).toBeCloseTo((40 / 5.98e-3) * (25 / (tails?.ratedA ?? Number.NaN)) ** 2, 0);
    expect(tails).toMatchObject({ ambientC: 30, riseAtRatedK: 40, limitC: 70 });
    expect(bodies.some(({ carries }) => carries === 0)).toBe(true);
  });

  it("lets the car of a charge point that nobody governs take what it can", () => {
    const job = with_(["limiter.chargePoints", ["other"]]);
    const twoPoints: Job = {
      ...job,
      nodes: [
        ...job.nodes,
        { ...(job.nodes.find(({ id }) => id === "car") as Job["nodes"][number]), id: "other" },
      ],
      cables: [
        ...job.cables,
        {
          ...(job.cables.find(({ to }) => to === "car") as Job["cables"][number]),
          id: "to-other",
          to: "other",
        },
      ],
    };
    const { plan, ungoverned } = planOf(setAt(twoPoints, "nodes[car].ratedA", known(16)));
    expect(ungoverned).toEqual(["car"]);
    // Not more than its charge point offers: 16 A of the 32 A it would take.
    expect(plan.cars.map(({ point, onboardA }) => [plan.points[point]?.id, onboardA])).toEqual([
      ["car", 16],
      ["other", 32],
    ]);
    expect(plan.faults).toEqual([
      {
        kind: "car-ignores-offer",
        point: plan.points.findIndex(({ id }) => id === "car"),
        fromS: 0,
        untilS: Infinity,
      },
    ]);
  });

  it("says what is missing instead of guessing the supply", () => {
    const result = sitePlanOf(studied(with_(["nodes[cut-out].overcurrent.ratingA", NOT_RECORDED])));
    expect(result.ok ? [] : result.missing.map(({ path }) => path)).toContain(
      "nodes[cut-out].overcurrent.ratingA",
    );
  });

  it("leaves the fuse out where no curve is held for it", () =>
    expect(planOf(with_(["nodes[cut-out].overcurrent.standard", known("bs-1361")])).plan.fuse).toBeNull());

  it("names the transformer that by the design misses something, and the highest limit that may be set", () => {
    const metering = soundJob().metering;
    const [transformer] = metering?.currentTransformers ?? [];
    const [feed] = soundJob().cables.filter(({ to }) => to === "car");
    const aside = with_([`metering.currentTransformers[${transformer?.id}].cable`, feed?.id]);
    expect(planOf(soundJob()).misplaced).toEqual([]);
    expect(planOf(aside).misplaced).toEqual([transformer?.id]);
    expect(studied(soundJob()).highestLimit).toMatchObject({ value: planOf(soundJob()).highestLimitA });
  });
});
