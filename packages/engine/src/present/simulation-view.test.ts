import { describe, expect, it } from "vitest";
import { simulate } from "../simulation/index.ts";
import { plain, siteOf, usual, viewOf } from "../testing/shown-run.ts";
import { buildingWith, nightly, smallSite } from "../testing/small-site.ts";
import type { PlannedSite } from "../through-time/index.ts";
import type { Quantity } from "../worked/index.ts";
import { spreadSentences } from "./simulation-view.ts";

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
