import { describe, expect, it } from "vitest";
import { buildingWith, nightly, smallSite } from "../testing/small-site.ts";
import type { SiteOutcome } from "./outcome.ts";
import { simulate } from "./simulate.ts";
import { outcomeSpread, quantile } from "./spread.ts";

describe("quantile", () => {
  // Definition 7 by hand: place = share · (n − 1).
  it.each([
    [[1, 2, 3, 4], 0.5, 2.5],
    [[4, 1, 3, 2], 0.25, 1.75],
    [[10], 0.95, 10],
    [[0, 100], 0.05, 5],
  ])("of %j at %d is %d", (values, share, expected) =>
    expect(quantile(values, share)).toBeCloseTo(expected, 12),
  );
  it("of nothing is nothing", () => expect(quantile([], 0.5)).toBeNaN());
});

describe("outcomeSpread", () => {
  const outcomes = [10, 20, 30].map((restA) =>
    simulate({ plan: smallSite, habits: [nightly], building: buildingWith(restA), days: 1, seed: 1 }),
  );
  it("takes the worst line of each seed, and the middle of the seeds", () =>
    expect(outcomeSpread(outcomes)).toMatchObject({
      seeds: 3,
      fullShare: { median: 1 },
      // Of three the least and the greatest: nine in ten of them cannot be told.
      mostA: { low: 42, median: 52, high: 60 },
    }));
  it("tells the worst line, and what nine seeds in ten lie between: from the second to the last but one of 21", () => {
    const like = outcomes[0] as SiteOutcome;
    const line = like.lines[0] as SiteOutcome["lines"][number];
    const many = Array.from({ length: 21 }, (_, seed) => ({
      ...like,
      lines: [line, { ...line, mostA: 100 + seed, over: { ...line.over, totalS: seed, longestS: seed / 2 } }],
    }));
    const { mostA, overTotalS, overLongestS } = outcomeSpread(many);
    expect(mostA).toEqual({ low: 101, median: 110, high: 119 });
    expect(overTotalS).toEqual({ low: 1, median: 10, high: 19 });
    expect(overLongestS).toEqual({ low: 0.5, median: 5, high: 9.5 });
    // Of twenty one in twenty can be told: 5 % of the way over the nineteen between the least and the greatest.
    expect(outcomeSpread(many.slice(0, 20)).mostA.low).toBeCloseTo(100 + 0.05 * 19, 9);
    expect(outcomeSpread(many.slice(0, 19)).mostA).toEqual({ low: 100, median: 109, high: 118 });
  });
  it("says nothing of cars that never came, or of a fuse without a curve", () => {
    const none = simulate({
      plan: { ...smallSite, fuse: null },
      habits: [],
      building: buildingWith(10),
      days: 1,
      seed: 1,
    });
    expect(outcomeSpread([none])).toMatchObject({ fullShare: null, missingKwhPerSession: null, fast: null });
  });
});
