import { describe, expect, it } from "vitest";
import { sketchTrace } from "../../testing/trace-sketch.ts";
import { excursionsOf } from "./excursion.ts";

const over = (values: readonly number[], stepS = 1, carA: readonly number[] | null = null) =>
  excursionsOf(
    {
      timesS: Float64Array.from(values, (_, index) => index * stepS),
      currentA: Float64Array.from(values),
      carA: carA && Float64Array.from(carA),
    },
    60,
  );

describe("excursionsOf", () => {
  it("gives start, length, peak, ampere-seconds and rms of a known excursion", () => {
    const [only, ...others] = over([50, 70, 80, 70, 50, 50], 2);
    expect(others).toEqual([]);
    expect(only).toMatchObject({ startS: 2, backS: 8, heldS: 6, lengthS: [4, 8], peakA: 80, overAs: 80 });
    expect(only?.rmsA).toBeCloseTo(Math.sqrt((2 * 4900 + 6400) / 3), 12);
  });
  it("does not count a current on the limit, nor one above by its last binary digit", () => {
    expect(over([60, 60, 28.8 + 31.2 + 7e-15])).toEqual([]);
    expect(over([60, 60.001, 60])).toHaveLength(1);
  });
  it("knows neither length nor beginning of one that was there at the start", () => {
    expect(over([70, 50])).toMatchObject([{ beganBefore: true, lengthS: [0, Number.POSITIVE_INFINITY] }]);
  });
  it("knows no end of one that is there at the end", () => {
    expect(over([50, 70, 70])).toMatchObject([
      { isUnfinished: true, heldS: 1, lengthS: [1, Number.POSITIVE_INFINITY] },
    ]);
  });
  it("passes over what was not recorded, and widens what may be", () => {
    const none = Number.NaN;
    expect(over([50, none, 70, none, none, 50])).toMatchObject([{ startS: 2, backS: 5, lengthS: [0, 5] }]);
  });
  it("says for how long the building was over without the car", () => {
    expect(over([50, 90, 70, 62, 50], 1, [0, 32, 5, 0, 0])).toMatchObject([{ withoutCarS: 2 }]);
  });
  it("finds each of several", () => {
    const trace = sketchTrace([
      [3, 50],
      [2, 70],
      [4, 50],
      [1, 90],
      [3, 50],
    ]);
    const found = excursionsOf(
      { timesS: trace.timesS, currentA: trace.supplyA.L1 as Float64Array, carA: null },
      60,
    );
    expect(found.map(({ startS, heldS, overAs }) => [startS, heldS, overAs])).toEqual([
      [3, 2, 20],
      [9, 1, 30],
    ]);
  });
});
