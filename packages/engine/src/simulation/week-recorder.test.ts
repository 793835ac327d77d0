import { describe, expect, it } from "vitest";
import { buildingWith, nightly, smallSite } from "../testing/small-site.ts";
import { simulate } from "./simulate.ts";
import { WeekRecorder } from "./week-recorder.ts";

const recorded = (days: number, peakDay: number) => {
  const recorder = new WeekRecorder(1);
  const building = {
    intervalsPerDay: 1440,
    fill: (day: number, intoA: Float64Array) =>
      buildingWith(10, ...(day === peakDay ? [{ fromH: 9, untilH: 9.05, currentA: 55 }] : [])).fill(
        day,
        intoA,
      ),
  };
  simulate({ plan: smallSite, habits: [nightly], building, days, seed: 1, watch: recorder.watch });
  return recorder.best;
};

describe("WeekRecorder", () => {
  it("keeps the week with the highest current, and points at it", () => {
    const best = recorded(21, 9);
    expect(best).toMatchObject({ firstDay: 7, most: { currentA: 55, line: 0, period: 2 * 144 + 9 * 6 } });
  });
  it("keeps the first of weeks that came as high", () => expect(recorded(21, -1).firstDay).toBe(0));
  it("gives means and highest of ten minutes", () => {
    const [line] = recorded(8, 2).lines;
    const nine = 2 * 144 + 54;
    // Three minutes of ten at 55 A, the rest at 10 A.
    expect(line?.supplyMeanA[nine]).toBeCloseTo(23.5, 9);
    expect(line?.supplyMostA[nine]).toBe(55);
    // The car charges for an hour from six, at 32 A; its first step is spent waiting for an offer.
    const evening = 6 * 18 + 1;
    // Ten minute means added up: the last place may differ.
    expect(line?.carMeanA[evening]).toBeCloseTo(32, 9);
    expect(line?.supplyMeanA[evening]).toBeCloseTo(42, 9);
    expect(line?.carMostA[evening]).toBe(32);
  });
  it("counts a week under way as far as it goes", () => {
    const best = recorded(10, 8);
    expect(best.firstDay).toBe(7);
    expect(best.lines[0]?.supplyMeanA[3 * 144 - 1]).toBeCloseTo(10, 9);
    expect(best.lines[0]?.supplyMeanA[3 * 144]).toBeNaN();
  });
});
