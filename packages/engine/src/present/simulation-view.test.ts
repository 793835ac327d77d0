import { describe, expect, it } from "vitest";
import { blindLatencyBound } from "../limiter/index.ts";
import {
  planLatency,
  type SitePlan,
  simulate,
  type TimedFault,
  type TrialKind,
} from "../simulation/index.ts";
import { buildingWith, nightly, smallSite } from "../testing/small-site.ts";
import { doubtsOf, type PlannedSite, type SimulatedSite } from "../through-time/index.ts";
import type { Quantity } from "../worked/index.ts";
import { simulationView, spreadSentences } from "./simulation-view.ts";

const usual = buildingWith(10, { fromH: 18.5, untilH: 19, currentA: 50 });
/** Spaces that do not break, as ordinary ones. */
const plain = (text: string): string => text.replace(/[\u00a0\u202f]/g, " ");
const LIMIT = { kind: "step", symbol: "Iset", label: "limit", unit: "A", value: 60 } as unknown as Quantity;
const ignoring: TimedFault = {
  kind: "car-ignores-offer",
  point: 0,
  fromS: 0,
  untilS: Number.POSITIVE_INFINITY,
};

const siteOf = (plan: SitePlan, ungoverned: readonly string[] = []): PlannedSite => ({
  plan,
  habits: [nightly],
  lines: ["L1"],
  rests: [],
  presumed: ["equal-sharing"],
  fuseRatingA: 60,
  ungoverned,
  isManagerImagined: false,
  limit: LIMIT,
  highestLimitA: 60,
  misplaced: [],
});

/** A plan run for a day and shown, its run also standing as the one trial. */
function viewOf(
  plan: SitePlan,
  building = usual,
  ungoverned: readonly string[] = [],
  more: Partial<SimulatedSite> = {},
) {
  const outcome = simulate({ plan, habits: [nightly], building, days: 1, seed: 1 });
  const simulated: Omit<SimulatedSite, "doubts"> = {
    site: siteOf(plan, ungoverned),
    terms: {
      building: { ...building, kind: "recorded", days: 1, intervalS: 60, from: "2026-11-01", lacks: [] },
      days: 1,
      seed: 1,
      triesFaults: true,
      designedFallbackA: null,
    },
    outcome,
    latency: planLatency(plan),
    blind: null,
    stability: null,
    states: [[]],
    usualS: 15,
    longestS: 60,
    trials: [{ kind: "nothing", fallbackA: null, outcome }],
    hidden: null,
    ...more,
  };
  const { terms, site } = simulated;
  return simulationView({
    ...simulated,
    doubts: doubtsOf({ building: terms.building, outcome: simulated.outcome, site }),
  });
}
const trialOf = (...of: Parameters<typeof viewOf>) => {
  const [row] = viewOf(...of).trials;
  return row && { ...row, over: plain(row.over), highest: plain(row.highest) };
};
const control = { ...smallSite.control, decideEveryS: 1, readEveryS: 10, fallbackAfterS: 5 };

describe("a fault trial", () => {
  it("passes while only what is usual is over", () =>
    expect(trialOf(smallSite)).toMatchObject({ tone: "pass", over: "for up to 1 s", highest: "82.0 A" }));
  it("fails when the car holds the supply over for longer than operators allow", () =>
    expect(trialOf({ ...smallSite, faults: [ignoring] })).toMatchObject({
      tone: "fail",
      over: "for up to 30 min",
    }));
  it("cannot be told while the building alone is over", () => {
    const over = buildingWith(10, { fromH: 18.5, untilH: 19, currentA: 61 });
    expect(trialOf(smallSite, over)).toMatchObject({
      tone: "unknown",
      over: "for up to 30 min, a car in it for 1 s",
    });
  });
  it("cannot be told where it was over and no curve is held for the fuse", () => {
    const plan = { ...smallSite, fuse: null };
    expect(trialOf(plan)).toMatchObject({ tone: "unknown", fuse: null });
    expect(trialOf(plan, buildingWith(10))).toMatchObject({ tone: "pass", over: "never" });
  });
  it("fails when a cable grows too hot, however short the excursions", () => {
    const [tails] = smallSite.bodies as readonly [SitePlan["bodies"][number]];
    const plan = { ...smallSite, bodies: [{ ...tails, ratedA: 50 }] };
    expect(trialOf(plan)).toMatchObject({ tone: "fail", highest: "82.0 A, a cable above its limit" });
  });
});

describe("what bounds the time over the limit", () => {
  const said = (...of: Parameters<typeof viewOf>) =>
    viewOf(...of)
      .timing.slice(1)
      .map(({ tone, text }) => [tone, plain(text)]);
  it("is the delays, while the building by itself stays under", () =>
    expect(said(smallSite)[0]).toEqual([
      "pass",
      "After a load step at most 2 s over the limit, if the building by itself stays under it: between readings 1 s + command on its way 1 s.",
    ]));
  it("is nothing where a time-out is over before the next reading, which fails", () => {
    const [bound, timeOut] = said({ ...smallSite, control });
    expect(bound).toEqual([
      "unknown",
      expect.stringContaining("While a fallback is taken with nothing wrong"),
    ]);
    expect(timeOut).toEqual([
      "fail",
      expect.stringContaining("The time-out of 5 s is over before the next reading comes (10 s)"),
    ]);
  });
  it("is nothing where a car follows no offer", () =>
    expect(said({ ...smallSite, faults: [ignoring] }, usual, ["point"])[0]).toEqual([
      "unknown",
      "Cars at point follow no offer: delays alone bound no time over the limit.",
    ]));
});

describe("what the fallback is blamed for", () => {
  const blind = { totalS: 62, parts: [{ part: "time-out" as const, timeS: 60 }] };
  const said = (change: Partial<PlannedSite>, carS: number, fallbackA = 32) => {
    const plan = { ...smallSite, control: { ...smallSite.control, fallbackA } };
    const outcome = simulate({ plan, habits: [nightly], building: usual, days: 1, seed: 1 });
    const trial = {
      kind: "bus-lost" as const,
      fallbackA,
      outcome: {
        ...outcome,
        excursions: [{ line: 0, startS: 0, lengthS: 900, aloneS: 0, carS }],
        bodies: outcome.bodies.map((body) => ({ ...body, mostC: 99 })),
      },
    };
    const site = { ...siteOf(plan), ...change };
    const told = viewOf(plan, usual, [], { site, blind, trials: [trial] }).timing[2];
    return plain(told?.text ?? "").replace(/^.*time-out 60 s\.\s*/, "");
  };
  it.each([
    ["being too high, where a car draws on after it", {}, 63, "fallback is too high"],
    ["coming too late, where a car draws until then", {}, 61, "the last offer stands"],
    ["nothing of the time, where only a cable is too hot", {}, 60, "no longer than it may be"],
    ["nothing, where cars follow no offer", { ungoverned: ["B"] }, 900, "Cars at B follow no offer"],
  ] as const)("%s", (_what, change, carS, words) => expect(said(change, carS)).toContain(words));
  it("nothing, where the limit itself is too high", () => expect(said({ highestLimitA: 59 }, 900)).toBe(""));
});

describe("what was sent out", () => {
  const sunny = buildingWith(10, { fromH: 10, untilH: 15, currentA: -70 });
  it("does not pass where it is more than the limit, nor where the main fuse is smaller", () => {
    const [line, fuse] = viewOf(smallSite, sunny).supply;
    expect(line?.tone).toBe("unknown");
    expect(plain(line?.text ?? "")).toContain("Up to 70.0 A were sent out, which is more than that as well");
    expect(fuse?.tone).toBe("unknown");
    expect(plain(fuse?.text ?? "")).toContain(
      "up to 70.0 A were sent out, more than the rating of the main fuse",
    );
  });
  it("operates the main fuse as what is taken in does", () => {
    const strong = buildingWith(10, { fromH: 10, untilH: 15, currentA: -100 });
    expect(viewOf(smallSite, strong).supply[1]).toMatchObject({ tone: "fail" });
  });
});

describe("a job without a load manager", () => {
  it("is told to be run with one that is imagined, and passes nothing about the supply", () => {
    const site = { ...siteOf(smallSite), isManagerImagined: true };
    const { supply, timing, remarks, trials } = viewOf(smallSite, buildingWith(10), [], { site });
    expect(timing[0]).toEqual({ tone: "unknown", text: expect.stringContaining("one is imagined") });
    expect(supply.slice(0, 3).map(({ tone }) => tone)).toEqual(["unknown", "unknown", "unknown"]);
    expect(supply[0]?.text).toBe("Nothing about the supply passes here: the load manager is imagined.");
    expect(trials[0]?.tone).toBe("unknown");
    expect(remarks.join()).toContain("This run imagines one");
  });
});

describe("the fallback", () => {
  it("fails with the trial of a broken bus that it does not save", () => {
    const plan = { ...smallSite, control: { ...smallSite.control, fallbackA: 32 } };
    const lost: TimedFault = { kind: "bus-lost", fromS: 64_000, untilS: 86_400 };
    const run = (faults: readonly TimedFault[]) =>
      simulate({ plan: { ...plan, faults }, habits: [nightly], building: usual, days: 1, seed: 1 });
    const blind = blindLatencyBound({ settings: plan.control, car: { deadS: 0, fallAPerS: 32 }, fallA: 32 });
    const said = (kind: TrialKind) =>
      viewOf(plan, usual, [], { blind, trials: [{ kind, fallbackA: 32, outcome: run([lost]) }] }).timing[2];
    expect(said("bus-lost")).toEqual({ tone: "fail", text: expect.stringContaining("lower it") });
    // A frozen reading is no lost one: no fallback is taken, and none is to blame.
    expect(said("reading-frozen")?.tone).toBe("none");
  });
});

describe("a pause that does not save a broken bus", () => {
  it("is not told to be lowered", () => {
    const plan = { ...smallSite, control: { ...smallSite.control, fallbackA: 0 } };
    const outcome = simulate({ plan, habits: [nightly], building: usual, days: 1, seed: 1 });
    const [line] = outcome.lines as readonly [(typeof outcome.lines)[number]];
    const high = {
      ...outcome,
      lines: [{ ...line, over: { count: 1, totalS: 900, longestS: 900, aloneS: 838, carS: 62 } }],
      excursions: [{ line: 0, startS: 0, lengthS: 900, aloneS: 838, carS: 62 }],
    };
    const blind = { totalS: 62, parts: [{ part: "time-out" as const, timeS: 60 }] };
    const trials = [{ kind: "bus-lost" as const, fallbackA: 0, outcome: high }];
    const told = viewOf(plan, usual, [], { blind, trials }).timing[2];
    expect(told).toEqual({ tone: "fail", text: expect.stringContaining("Until then the last offer stands") });
    expect(told?.text).not.toContain("lower it");
  });
});

describe("a time-out that is too long", () => {
  it("is told apart from a fallback that is too high, with the one that would do", () => {
    const plan = { ...smallSite, control: { ...smallSite.control, fallbackA: 0, fallbackAfterS: 70 } };
    const outcome = simulate({ plan, habits: [nightly], building: usual, days: 1, seed: 1 });
    const [line] = outcome.lines as readonly [(typeof outcome.lines)[number]];
    const late = {
      ...outcome,
      lines: [{ ...line, over: { count: 1, totalS: 71, longestS: 71, aloneS: 0, carS: 71 } }],
      excursions: [{ line: 0, startS: 0, lengthS: 71, aloneS: 0, carS: 71 }],
    };
    // The fallback is taken 70 s after the last reading and two steps on its way: 72 s, of which 60 s are allowed.
    const blind = { totalS: 72, parts: [{ part: "time-out" as const, timeS: 70 }] };
    const trials = [{ kind: "bus-lost-on-rise" as const, fallbackA: 0, outcome: late }];
    expect(viewOf(plan, usual, [], { blind, trials }).timing[2]).toEqual({
      tone: "fail",
      text: expect.stringMatching(/set a time-out of 58\s+s or less/),
    });
  });
});

describe("the load manager", () => {
  it("fails with a limit above the highest that may be set", () => {
    const site = { ...siteOf(smallSite), highestLimitA: 58.24 };
    const [limit] = viewOf(smallSite, usual, [], { site }).timing;
    expect([limit?.tone, plain(limit?.text ?? "")]).toEqual([
      "fail",
      expect.stringContaining("The limit is above the 58.2 A that the supply"),
    ]);
  });
  it("says the limit it keeps to, and whether anybody recorded it", () => {
    expect(plain(viewOf(smallSite).timing[0]?.text ?? "")).toBe(
      "Limit 60 A, worked out from the supply and the margin the metering chain needs, because none is recorded. Up to 15 s over it is usual, more than 60 s is too long.",
    );
  });
  it("fails while a transformer does not see what the main fuse carries", () => {
    const site = { ...siteOf(smallSite), misplaced: ["ct-2"] };
    expect(viewOf(smallSite, usual, [], { site }).timing[1]).toEqual({
      tone: "fail",
      text: expect.stringContaining("ct-2 does not see all that the main fuse carries"),
    });
  });
});

describe("what is taken for granted", () => {
  it("names what is presumed, and figures with all the digits they have", () => {
    const figure = (label: string, value: number): Quantity =>
      ({
        kind: "figure",
        label,
        value,
        unit: "Ω·mm",
        citation: { standing: "recalled" },
      }) as unknown as Quantity;
    const site = { ...siteOf(smallSite), rests: [figure("small", 1.7241e-5), figure("smaller", 2.5e-8)] };
    const assumed = viewOf(smallSite, usual, [], { site }).assumed.map(plain);
    expect(assumed).toContain("Charge points share equally.");
    expect(assumed.join()).toContain("small: 0.000017241 Ω·mm");
    expect(assumed.join()).toContain("smaller: 0.000000025 Ω·mm");
  });
  it("says that a recording is less what a generator gave", () => {
    const building = {
      ...buildingWith(10),
      ...{ kind: "recorded" as const, days: 1, intervalS: 60, from: "2026-11-01", lacks: [] },
      generators: ["Solar"],
    };
    const terms = { building, days: 1, seed: 1, triesFaults: true, designedFallbackA: null };
    expect(viewOf(smallSite, usual, [], { terms }).remarks.join()).toContain("less what Solar gave");
    expect(viewOf(smallSite).remarks.join()).not.toContain("gave at the time");
  });
});

describe("the cars", () => {
  it.each([
    [1, "pass"],
    [0.9, "none"],
    [0.5, "none"],
    [0.49, "fail"],
  ] as const)("with a share of %s full: %s", (fullShare, tone) => {
    const outcome = simulate({ plan: smallSite, habits: [nightly], building: usual, days: 2, seed: 1 });
    expect(viewOf(smallSite, usual, [], { outcome: { ...outcome, fullShare } }).cars[0]?.tone).toBe(tone);
  });
  it("says which cars waited for their charge point, and what no night can tell", () => {
    const waiting = {
      car: 0,
      startS: 0,
      untilS: 40_000,
      wantedKwh: 5,
      deliveredKwh: 1,
      isFull: false,
      waitedS: 9,
    };
    const outcome = simulate({ plan: smallSite, habits: [nightly], building: usual, days: 1, seed: 1 });
    const { cars } = viewOf(smallSite, usual, [], {
      outcome: { ...outcome, sessions: [...outcome.sessions, waiting], cutShort: 2 },
    });
    const texts = cars.map(({ text }) => text);
    expect(texts).toContainEqual(expect.stringContaining("1 of 2 cars found their charge point taken"));
    expect(texts).toContainEqual(
      expect.stringContaining("2 sessions were under way when the last day ended"),
    );
  });
});

describe("a fault trial with and without the fallback", () => {
  it("is one row where it makes no difference", () => {
    const outcome = simulate({ plan: smallSite, habits: [nightly], building: usual, days: 1, seed: 1 });
    const trials = [6, null].map((fallbackA) => ({ kind: "bus-lost" as const, fallbackA, outcome }));
    expect(viewOf(smallSite, usual, [], { trials }).trials.map(({ fallback }) => fallback)).toEqual([
      "makes no difference",
    ]);
  });
});

describe("many short excursions", () => {
  it("do not pass where they take more than a hundredth of the time cars charge", () => {
    const outcome = simulate({ plan: smallSite, habits: [nightly], building: usual, days: 1, seed: 1 });
    const [line] = outcome.lines as readonly [(typeof outcome.lines)[number]];
    const said = (totalS: number) =>
      viewOf(smallSite, usual, [], {
        outcome: {
          ...outcome,
          chargingH: 1,
          lines: [{ ...line, over: { count: 9, totalS, longestS: 4, aloneS: 0, carS: totalS } }],
        },
      }).supply[0];
    expect(said(36)?.tone).toBe("pass");
    expect(said(37)?.tone).toBe("unknown");
    expect(plain(said(37)?.text ?? "")).toContain("more than 1 % of the time they charge");
  });
});

describe("a building that is over by itself", () => {
  it.each([
    [9, "A car drew for 9 s while the line was over."],
    [0, "No car drew while the line was over."],
  ])("is told apart from the %s s in which a car drew as well", (carS, said) => {
    const outcome = simulate({ plan: smallSite, habits: [nightly], building: usual, days: 1, seed: 1 });
    const [line] = outcome.lines as readonly [(typeof outcome.lines)[number]];
    const over = { count: 1, totalS: 900, longestS: 900, aloneS: 900, carS };
    const [told] = viewOf(smallSite, usual, [], {
      outcome: { ...outcome, lines: [{ ...line, over }] },
    }).supply;
    expect(told?.tone).toBe("unknown");
    expect(plain(told?.text ?? "")).toContain(`no load manager can help that. ${said}`);
  });
});

describe("days that were drawn", () => {
  it.each([
    ["a recording", { kind: "recorded" as const }, "pass", "in these days;"],
    [
      "a recording with a load drawn on top",
      { kind: "recorded" as const, adds: ["Shower"] },
      "unknown",
      "drawn in part",
    ],
    ["a building drawn at random", { kind: "drawn" as const }, "unknown", "in these days, drawn; highest"],
    [
      "a recording that lacks a load",
      { kind: "recorded" as const, lacks: ["Heat pump"] },
      "unknown",
      "never over",
    ],
  ])("pass nothing about the supply: %s", (_what, changed, tone, words) => {
    const calm = buildingWith(10);
    const building = { ...calm, days: 1, intervalS: 60, from: "2026-11-01", lacks: [], ...changed };
    const terms = { building, days: 1, seed: 1, triesFaults: true, designedFallbackA: null };
    const { supply } = viewOf(smallSite, calm, [], { terms });
    const line = supply.find(({ text }) => text.startsWith("L1"));
    expect([line?.tone, line?.text]).toEqual([tone, expect.stringContaining(words)]);
    expect(supply[0]?.text.includes("Nothing about the supply passes here")).toBe(tone !== "pass");
  });
});

describe("the title", () => {
  const titleOf = (days: number, from: string | null, sessions: number) => {
    const outcome = simulate({ plan: smallSite, habits: [nightly], building: usual, days: 1, seed: 1 });
    const [one] = outcome.sessions as readonly [(typeof outcome.sessions)[number]];
    const building = { ...usual, kind: "recorded" as const, days, intervalS: 60, from, lacks: [] };
    return viewOf(smallSite, usual, [], {
      outcome: { ...outcome, days: 2, sessions: Array.from({ length: sessions }, () => one) },
      terms: { building, days: 2, seed: 7, triesFaults: true, designedFallbackA: null },
    }).title;
  };
  it.each([
    [
      2,
      "2026-11-01",
      1,
      "2 days of building demand recorded from 2026-11-01, 1 session of charging (seed 7).",
    ],
    [
      1,
      "2026-11-01",
      2,
      "2 days of building demand, 1 of them recorded from 2026-11-01 and repeated, 2 sessions of charging (seed 7).",
    ],
    [
      Number.POSITIVE_INFINITY,
      null,
      2,
      "2 days of building demand drawn at random, 2 sessions of charging (seed 7).",
    ],
  ])("of %d days recorded from %s", (days, from, sessions, title) =>
    expect(titleOf(days, from, sessions)).toBe(title),
  );
});

describe("a run that was stopped", () => {
  const remarksFor = (days: number) => {
    const building = {
      ...usual,
      kind: "recorded" as const,
      days: 1,
      intervalS: 60,
      from: "2026-11-01",
      lacks: [],
    };
    const terms = { building, days, seed: 1, triesFaults: true, designedFallbackA: null };
    return viewOf(smallSite, usual, [], { terms }).remarks.join(" ");
  };
  it("says so, and one that was not says nothing of it", () => {
    expect(remarksFor(3)).toContain("Stopped after 1 of 3 days");
    expect(remarksFor(1)).not.toContain("Stopped");
  });
});

it("names each figure it takes for granted once", () => {
  const figure = {
    kind: "figure",
    symbol: "d",
    label: "dead time",
    unit: "s",
    value: 0.5,
    citation: { standing: "recalled" },
  };
  const site = { ...siteOf(smallSite), rests: [figure, figure] as unknown as PlannedSite["rests"] };
  const { assumed } = viewOf(smallSite, usual, [], { site });
  expect(assumed.filter((text) => text.startsWith("dead time"))).toHaveLength(1);
});

describe("how far seeds spread", () => {
  const spread = {
    seeds: 20,
    fullShare: { low: 0.5, median: 0.899, high: 1 },
    kwhPerSession: { low: 5, median: 6, high: 7 },
    missingKwhPerSession: { low: 0, median: 1, high: 2 },
    overTotalS: { low: 0, median: 10, high: 500 },
    overLongestS: { low: 0, median: 5, high: 50 },
    mostA: { low: 55, median: 60.01, high: 65 },
    fast: { low: 0, median: 0.101, high: 0.3 },
  };
  it("is told from low to high, sessions rounded down, currents and the fuse up", () =>
    expect(spreadSentences(spread).map(plain)).toEqual([
      "20 seeds, each with other cars and, where it is drawn, another building:",
      "sessions that ended full 89 % (nine in ten from 50 % to 100 %)",
      "energy a session 6.0 kWh (nine in ten from 5.0 kWh to 7.0 kWh)",
      "missing a session 1.0 kWh (nine in ten from 0.0 kWh to 2.0 kWh)",
      "time over the supply's limit on the worst line 10 s (nine in ten from 0 s to 500 s), longest 5 s (nine in ten from 0 s to 50 s)",
      "highest current 60.1 A (nine in ten from 55.0 A to 65.0 A)",
      "life of the fuse used at once 11 % (nine in ten from 0 % to 30 %)",
    ]));
  it("claims no nine in ten of fewer than twenty", () =>
    expect(spreadSentences({ ...spread, seeds: 19 }).join()).not.toContain("nine in ten"));
});

describe("the bound after a load step", () => {
  it.each([
    [15, "pass"],
    [15.1, "unknown"],
    [60, "unknown"],
  ])("of %d s: %s", (totalS, tone) =>
    expect(viewOf(smallSite, usual, [], { latency: { parts: [], totalS } }).timing[1]?.tone).toBe(tone),
  );
});

describe("a lost reading", () => {
  const outcome = simulate({ plan: smallSite, habits: [nightly], building: usual, days: 1, seed: 1 });
  const [line] = outcome.lines as readonly [(typeof outcome.lines)[number]];
  const overFor = (longestS: number) => ({
    ...outcome,
    lines: [{ ...line, over: { count: 1, totalS: longestS, longestS, aloneS: 0, carS: longestS } }],
    excursions: [{ line: 0, startS: 0, lengthS: longestS, aloneS: 0, carS: longestS }],
  });
  const blind = { totalS: 72, parts: [{ part: "time-out" as const, timeS: 70 }] };
  const told = (...lost: readonly (readonly [number | null, number])[]) => {
    const trials = lost.map(([fallbackA, longestS]) => ({
      kind: "bus-lost" as const,
      fallbackA,
      outcome: overFor(longestS),
    }));
    return viewOf(smallSite, usual, [], { blind, trials }).timing[2];
  };
  it("is judged by the fallback that is set, not by one that was only tried", () =>
    expect(told([6, 10], [null, 3600])?.tone).toBe("none"));
  it("cannot be told where it leaves the supply over for longer than usual", () =>
    expect(told([6, 16])?.tone).toBe("unknown"));
  it("blames the time-out while the supply is over for just as long as it takes, by the worst of the trials", () => {
    expect(told([6, 72])?.text).toContain("Until then the last offer stands");
    expect(told([6, 10], [6, 73])?.text).toContain("the fallback is too high");
  });
});

it.each([
  ["calm", "pass"],
  ["rings", "unknown"],
  ["unstable", "fail"],
] as const)("a chain that is %s: %s, its limits rounded down", (state, tone) => {
  const stability = { state, lateDecisions: 2, gain: 0.3, stableBelow: 0.6189, calmUpTo: 0.1489 };
  const said = viewOf(smallSite, usual, [], { stability }).timing.at(-1);
  expect([said?.tone, said?.text]).toEqual([
    tone,
    "The chain answers 2 decisions late. Gain 0.3: without overshoot up to 0.148, stable below 0.618.",
  ]);
});
