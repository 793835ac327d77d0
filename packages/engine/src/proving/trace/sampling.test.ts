import { expect, it } from "vitest";
import { samplingOf } from "./sampling.ts";

it("counts values, absent ones and negative ones, and finds the longest time without one", () => {
  const none = Number.NaN;
  const timesS = Float64Array.from([0, 1, 2, 3, 9, 10]);
  expect(samplingOf("L1", timesS, Float64Array.from([4, none, none, -1, 7, none]))).toEqual({
    line: "L1",
    valueCount: 3,
    missingCount: 3,
    negativeCount: 1,
    carAboveCount: 0,
    peakA: 7,
    mostBackA: 1,
    longestStepS: 6,
    longestStepAtS: 3,
  });
});

it("counts where the charge points drew more than the supply, but for what their meters may differ by", () => {
  const timesS = Float64Array.from([0, 1, 2, 3]);
  const supply = Float64Array.from([10, 30, -5, Number.NaN]);
  // 31 A of a car is known to 3.55 A: 30 A beside it is near enough, 10 A is not; fed back there may be any.
  expect(samplingOf("L1", timesS, supply, Float64Array.from([31, 31, 31, 31])).carAboveCount).toBe(1);
  expect(samplingOf("L1", timesS, supply, Float64Array.from([13, 33.5, 0, 0])).carAboveCount).toBe(1);
});
