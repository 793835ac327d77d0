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
    peakA: 7,
    mostBackA: 1,
    longestStepS: 6,
    longestStepAtS: 3,
  });
});
