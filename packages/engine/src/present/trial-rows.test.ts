import { describe, expect, it } from "vitest";
import { type SiteOutcome, type SitePlan, simulate, type Trial } from "../simulation/index.ts";
import { ignoring, plain, usual, viewOf } from "../testing/shown-run.ts";
import { buildingWith, nightly, smallSite } from "../testing/small-site.ts";
import type { SimulatedSite } from "../through-time/index.ts";
import { merged, trialRow } from "./trial-rows.ts";

interface Came {
  readonly lengthS?: number;
  readonly aloneS?: number;
  readonly fast?: number;
  readonly slow?: number;
  readonly mostC?: number;
  readonly hasFuse?: boolean;
}
function rowOf(came: Came = {}, trial: Partial<Trial> = {}, doubts: SimulatedSite["doubts"] = []) {
  const { lengthS = 0, aloneS = 0, fast = 0, slow = 0, mostC = 50, hasFuse = true } = came;
  const outcome = {
    lines: [
      {
        over: { count: 1, totalS: lengthS, longestS: lengthS, aloneS },
        mostA: 60.01,
        mostOutA: 0,
        fuse: hasFuse ? { fast, slow, minute: 1 } : null,
      },
    ],
    bodies: [{ id: "tails", line: 0, mostC, limitC: 70, minute: 1 }],
    excursions: lengthS > 0 ? [{ line: 0, startS: 0, lengthS, aloneS, carS: lengthS - aloneS }] : [],
  } as unknown as SiteOutcome;
  const row = trialRow({ kind: "bus-lost", fallbackA: 6, outcome, ...trial }, {
    longestS: 60,
    usualS: 15,
    doubts,
    site: { plan: hasFuse ? smallSite : { ...smallSite, fuse: null }, fuseRatingA: 50 },
  } as unknown as SimulatedSite);
  return {
    ...row,
    highest: row.highest.replaceAll("\u00a0", " "),
    fuse: row.fuse?.replaceAll("\u00a0", " ") ?? null,
  };
}

describe("trialRow", () => {
  it.each([
    ["over for just the usual time", { lengthS: 15 }, "pass"],
    ["over for longer than usual", { lengthS: 16 }, "unknown"],
    ["over for just the longest time", { lengthS: 60 }, "unknown"],
    ["over for longer than that", { lengthS: 61 }, "fail"],
    ["over, but for the building's own time within the usual", { lengthS: 615, aloneS: 600 }, "unknown"],
    ["half the fuse's life", { fast: 0.5 }, "unknown"],
    ["just less of it", { fast: 0.499 }, "pass"],
    ["all of it on the fast edge", { fast: 1 }, "fail"],
    ["a cable at its limit", { mostC: 70 }, "pass"],
    ["a cable above it", { mostC: 70.1 }, "fail"],
    ["over, and no curve held for the fuse", { lengthS: 1, hasFuse: false }, "unknown"],
    ["never over, and no curve held", { hasFuse: false }, "pass"],
  ] as const)("%s: %s", (_what, came, tone) => expect(rowOf(came).tone).toBe(tone));
  it("passes nothing in doubt, and fails what fails", () => {
    expect([rowOf({}, {}, ["means"]).tone, rowOf({ fast: 1 }, {}, ["means"]).tone]).toEqual([
      "unknown",
      "fail",
    ]);
  });
  it.each([
    [{ fast: 0.301, slow: 0.1 }, "31 %"],
    [{ fast: 1, slow: 0.99 }, "may operate"],
    [{ fast: 5, slow: 1 }, "operates"],
  ])("of the fuse %j says %s", (came, words) => expect(rowOf(came).fuse).toBe(words));
  it.each([
    [6, "6\u00a0A"],
    [0, "0\u00a0A"],
    [null, "last offer held"],
  ])("names a fallback of %s", (fallbackA, words) => expect(rowOf({}, { fallbackA }).fallback).toBe(words));
  it("names none where nothing is wrong, and rounds the highest current up", () => {
    expect(rowOf({}, { kind: "nothing" }).fallback).toBeNull();
    expect(rowOf().highest).toBe("60.1 A");
  });
});

it("merges rows only where nothing but the fallback differs", () => {
  const [one, other, far] = [
    rowOf(),
    rowOf({}, { fallbackA: null }),
    rowOf({ fast: 1 }, { fallbackA: null }),
  ];
  expect(merged([one, other]).map(({ fallback }) => fallback)).toEqual(["makes no difference"]);
  expect(merged([one, far])).toEqual([one, far]);
});

const trialOf = (...of: Parameters<typeof viewOf>) => {
  const [row] = viewOf(...of).trials;
  return row && { ...row, over: plain(row.over), highest: plain(row.highest) };
};

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

describe("a fault trial with and without the fallback", () => {
  it("is one row where it makes no difference", () => {
    const outcome = simulate({ plan: smallSite, habits: [nightly], building: usual, days: 1, seed: 1 });
    const trials = [6, null].map((fallbackA) => ({ kind: "bus-lost" as const, fallbackA, outcome }));
    expect(viewOf(smallSite, usual, [], { trials }).trials.map(({ fallback }) => fallback)).toEqual([
      "makes no difference",
    ]);
  });
});
