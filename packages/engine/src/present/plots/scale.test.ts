import { describe, expect, it } from "vitest";
import { linearScale, logScale } from "./scale.ts";

describe("scales", () => {
  it("linear: from the first tick to the last, downwards where it rises on the drawing", () => {
    const { at } = linearScale({ min: 0, max: 84, maxCount: 6 }, { fromPx: 200, toPx: 100 });
    expect([0, 50, 100].map(at)).toEqual([200, 150, 100]);
  });
  it("logarithmic: equal factors are equal distances", () => {
    const { at } = logScale({ min: 1, max: 10_000, maxCount: 6 }, { fromPx: 0, toPx: 400 });
    expect([1, 10, 100, 1000, 10_000].map(at)).toEqual([0, 100, 200, 300, 400]);
  });
  it("ends at its ends", () => {
    const { at } = linearScale({ min: 0, max: 10, maxCount: 3 }, { fromPx: 0, toPx: 10 });
    expect([at(-5), at(50)]).toEqual([0, 10]);
  });
});
