import { describe, expect, it } from "vitest";
import { countWhere, extentOf, indexOfMax, meanOf, merged, present, runsFor } from "./samples.ts";

const GAPPED = [3, Number.NaN, -2, Number.POSITIVE_INFINITY, 7, 1e300, 7];

describe("samples", () => {
  it("leave out what cannot be drawn, and nothing else", () => {
    expect([...present(GAPPED)]).toEqual([3, -2, 7, 7]);
    expect(extentOf([GAPPED, [-9]])).toEqual({ min: -9, max: 7 });
    expect(extentOf([[], [Number.NaN]])).toBeNull();
    expect(indexOfMax(GAPPED)).toBe(4);
    expect(indexOfMax([Number.NaN])).toBe(-1);
    expect(countWhere(GAPPED, (value) => value > 2)).toBe(3);
    expect(meanOf(GAPPED)).toBe(15 / 4);
    expect(meanOf([])).toBeNull();
  });

  it("merge neighbours without losing the largest or inventing a value", () => {
    const run = { length: 3, count: 3 };
    expect(merged(GAPPED, run, "max")).toEqual([3, 7, 7]);
    expect(merged(GAPPED, run, "mean")).toEqual([0.5, 7, 7]);
    expect(merged([1, 2, Number.NaN, Number.NaN], { length: 2, count: 2 }, "mean")).toEqual([1.5, null]);
  });

  it.each([
    [0, { length: 1, count: 0 }],
    [336, { length: 1, count: 336 }],
    [337, { length: 2, count: 169 }],
    [1008, { length: 3, count: 336 }],
    [1_000_000, { length: 2977, count: 336 }],
  ])("of %i come in runs of %o", (length, expected) => expect(runsFor(length, 336)).toEqual(expected));
});
