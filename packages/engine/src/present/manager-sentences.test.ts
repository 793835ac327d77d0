import { describe, expect, it } from "vitest";
import { blindLatencyBound } from "../limiter/index.ts";
import { simulate, type TimedFault, type TrialKind } from "../simulation/index.ts";
import { ignoring, plain, siteOf, usual, viewOf } from "../testing/shown-run.ts";
import { nightly, smallSite } from "../testing/small-site.ts";
import type { PlannedSite } from "../through-time/index.ts";

const control = { ...smallSite.control, decideEveryS: 1, readEveryS: 10, fallbackAfterS: 5 };

describe("the load manager", () => {
  it("fails with a limit above the highest that may be set", () => {
    const site = { ...siteOf(smallSite), highestLimitA: 58.24 };
    const [limit] = viewOf(smallSite, usual, [], { site }).timing;
    expect([limit?.tone, plain(limit?.text ?? "")]).toEqual([
      "fail",
      expect.stringContaining("The limit is above the 58.2 A that the supply"),
    ]);
  });
  it("passes no bound that rests on an imagined manager", () => {
    const site = { ...siteOf(smallSite), isManagerImagined: true };
    expect(viewOf(smallSite, usual, [], { site }).timing[1]?.tone).toBe("unknown");
    expect(viewOf(smallSite).timing[1]?.tone).toBe("pass");
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
  it("leaves open whether commands are repeated where the time-out is shorter than the time between readings", () => {
    const slow = { ...smallSite.control, decideEveryS: 0, readEveryS: 10, fallbackAfterS: 5 };
    expect(said({ ...smallSite, control: slow })[1]).toEqual([
      "unknown",
      expect.stringContaining("This run takes it that commands are repeated meanwhile"),
    ]);
  });
  it("is nothing where a car follows no offer", () =>
    expect(said({ ...smallSite, faults: [ignoring] }, usual, ["point"])[0]).toEqual([
      "unknown",
      "Cars at point follow no offer: delays alone bound no time over the limit.",
    ]));
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
