import { readFileSync } from "node:fs";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { householdMinutes } from "../testing/household-minutes.ts";
import { demand } from "../testing/knowledge.ts";
import { dailyPeakRatios, hiddenPeak, runsAbove } from "./hidden-peak.ts";
import { averaged, countAbove, type IntervalSeries, summarise } from "./interval-series.ts";

const { peakRatios } = demand;
const house = householdMinutes();

/** Worked out with pandas from the same file: see reference/demand. */
const reference: {
  readonly present: number;
  readonly averaging: readonly ({ readonly averagingMin: number; readonly maxA: number } & Record<
    string,
    number
  >)[];
  readonly ratios: readonly {
    readonly averagingMin: number;
    readonly low: number;
    readonly quantiles: readonly number[];
    readonly high: number;
  }[];
  readonly insideHalfHour: { readonly all: readonly number[]; readonly high: number };
  readonly over: readonly {
    readonly thresholdA: number;
    readonly fromMinutesMin: number;
    readonly fromHalfHoursMin: number;
    readonly runs: number;
    readonly longestRunMin: number;
    readonly medianRunMin: number;
  }[];
} = JSON.parse(readFileSync(new URL("../../../../reference/demand/demand.json", import.meta.url), "utf8"));

/** The value at a share of the way through, linear between ranks. */
function quantile(values: Iterable<number>, share: number): number {
  const sorted = Float64Array.from(values)
    .filter((value) => !Number.isNaN(value))
    .sort();
  const place = share * (sorted.length - 1);
  const below = sorted[Math.floor(place)] as number;
  return below + (place % 1) * ((sorted[Math.ceil(place)] as number) - below);
}
/** Two programs sum the same numbers in another order. */
const ROUNDING = 1e-9;
const same = (one: number, other: number) => expect(Math.abs(one - other)).toBeLessThan(ROUNDING);

describe("fifteen measured days, beside pandas", () => {
  it("hold the same minutes", () => {
    expect(summarise(house)?.presentCount).toBe(reference.present);
    expect(reference.averaging).toHaveLength(6);
  });
  it.each(reference.averaging)("means over $averagingMin min: highest $maxA A, and percentiles", (row) => {
    const means = averaged(house, row.averagingMin);
    same(summarise(means)?.maximumA ?? 0, row.maxA);
    same(quantile(means.currentA, 0.999), row.p999A ?? 0);
    same(quantile(means.currentA, 0.99), row.p99A ?? 0);
    same(quantile(means.currentA, 0.95), row.p95A ?? 0);
    same(quantile(means.currentA, 0.5), row.p50A ?? 0);
  });
  it.each(reference.ratios)("days: highest minute over highest mean of $averagingMin min", (row) => {
    const ratios = dailyPeakRatios(house, row.averagingMin);
    expect(ratios).toHaveLength(15);
    same(Math.min(...ratios), row.low);
    same(Math.max(...ratios), row.high);
    [0.05, 0.25, 0.5, 0.75, 0.95].forEach((share, index) => {
      same(quantile(ratios, share), row.quantiles[index] ?? 0);
    });
  });
  it("inside half-hours: highest minute over the mean", () => {
    const means = averaged(house, 30).currentA;
    const inside = [...means].map((mean, block) => {
      const minutes = house.currentA.subarray(30 * block, 30 * (block + 1));
      return Math.max(...[...minutes].filter((value) => !Number.isNaN(value))) / mean;
    });
    same(Math.max(...inside), reference.insideHalfHour.high);
    [0.05, 0.25, 0.5, 0.75, 0.95].forEach((share, index) => {
      same(quantile(inside, share), reference.insideHalfHour.all[index] ?? 0);
    });
  });
  it.each(reference.over)("above $thresholdA A: minutes, half-hours that show it, runs", (row) => {
    const runs = runsAbove(house, row.thresholdA);
    expect(countAbove(house, row.thresholdA)).toBe(row.fromMinutesMin);
    expect(30 * countAbove(averaged(house, 30), row.thresholdA)).toBe(row.fromHalfHoursMin);
    expect(runs).toHaveLength(row.runs);
    expect(Math.max(...runs)).toBe(row.longestRunMin);
    expect(quantile(runs, 0.5)).toBe(row.medianRunMin);
  });
  it("half-hours show none of the 70 minutes above 30 A", () =>
    expect(reference.over.find(({ thresholdA }) => thresholdA === 30)).toMatchObject({
      fromMinutesMin: 70,
      fromHalfHoursMin: 0,
    }));
  it("are part of the twenty-five days published elsewhere: same highest means, no count above theirs", () => {
    // The 25 days' figures, worked out apart from the same open data; ten of the days are not in this file.
    const maximaA = [39.4, 37.48, 35.04, 33.19, 29.27, 23.36];
    reference.averaging.forEach(({ maxA }, index) => {
      expect(Math.abs(maxA - (maximaA[index] as number))).toBeLessThanOrEqual(0.005);
    });
    const minutesOver = [3388, 1021, 326, 90];
    const halfHoursOver = [2850, 540, 90, 0];
    reference.over.forEach(({ fromMinutesMin, fromHalfHoursMin }, index) => {
      expect(fromMinutesMin).toBeLessThanOrEqual(minutesOver[index] as number);
      expect(fromHalfHoursMin).toBeLessThanOrEqual(halfHoursOver[index] as number);
    });
    const ratios = dailyPeakRatios(house, 30);
    // Published of 25 days: least 5 % 1.27, middle 1.47, highest 2.28.
    expect(Math.max(...ratios)).toBeLessThanOrEqual(2.28);
    expect(Math.abs(quantile(ratios, 0.5) - 1.47)).toBeLessThanOrEqual(0.005);
  });
  it("give the quartiles that the table carries, rounded to the nearest hundredth", () => {
    expect(peakRatios.rows).toHaveLength(reference.ratios.length);
    for (const [minutes, , , ...quartiles] of peakRatios.rows) {
      const row = reference.ratios.find(({ averagingMin }) => averagingMin === minutes);
      expect(quartiles).toEqual(row?.quantiles.slice(1, 4).map((value) => Math.round(value * 100) / 100));
    }
  });
});

describe("hiddenPeak", () => {
  it("says of a half-hour mean of 20 A what is certain, seen and usual", () => {
    const peak = hiddenPeak({ highestMeanA: 20, averagingMin: 30 }, peakRatios);
    expect(peak.certain).toEqual({ lowA: 20, highA: 600 });
    expect([peak.seen.lowA, peak.seen.highA]).toEqual([expect.closeTo(26.4, 9), expect.closeTo(45.6, 9)]);
    expect(peak.usual.middleA).toBeCloseTo(29.4, 9);
    expect(peak.withShortLoadA).toBeNull();
    expect(peak.citation.source).toBe("household-minute");
  });
  it("adds a short load that the measured days lack to the high end, in full", () =>
    expect(
      hiddenPeak({ highestMeanA: 20, averagingMin: 30, shortLoadA: 39.1 }, peakRatios).withShortLoadA,
    ).toBeCloseTo(45.6 + 39.1, 9));
  it("of one-minute means there is nothing left to hide", () =>
    expect(hiddenPeak({ highestMeanA: 20, averagingMin: 1 }, peakRatios)).toMatchObject({
      certain: { lowA: 20, highA: 20 },
      seen: { lowA: 20, highA: 20 },
    }));
  it("widens with the averaging time, and each ground lies within the one before", () => {
    fc.assert(
      fc.property(fc.double({ min: 0.1, max: 200, noNaN: true }), (highestMeanA) => {
        const bands = [1, 5, 10, 15, 30, 60].map((averagingMin) =>
          hiddenPeak({ highestMeanA, averagingMin }, peakRatios),
        );
        for (const { certain, seen, usual } of bands) {
          const rising = [
            certain.lowA,
            seen.lowA,
            usual.lowA,
            usual.middleA,
            usual.highA,
            seen.highA,
            certain.highA,
          ];
          expect([...rising].sort((a, b) => a - b)).toEqual(rising);
        }
        const highs = bands.map(({ seen }) => seen.highA);
        expect([...highs].sort((a, b) => a - b)).toEqual(highs);
      }),
    );
  });
  it("holds each measured day's own highest minute", () => {
    const perDay = 1440;
    for (let day = 0; day < 15; day++) {
      const minutes: IntervalSeries = {
        intervalS: 60,
        currentA: house.currentA.slice(day * perDay, (day + 1) * perDay),
      };
      for (const averagingMin of [5, 10, 15, 30, 60]) {
        const highestMeanA = summarise(averaged(minutes, averagingMin))?.maximumA ?? 0;
        const { seen } = hiddenPeak({ highestMeanA, averagingMin }, peakRatios);
        expect(seen.lowA).toBeLessThanOrEqual(summarise(minutes)?.maximumA ?? 0);
        expect(seen.highA).toBeGreaterThanOrEqual(summarise(minutes)?.maximumA ?? 0);
      }
    }
  });
  it.each([
    ["a negative mean", { highestMeanA: -1, averagingMin: 30 }, "highestMeanA"],
    [
      "means over two hours, of which nothing was measured",
      { highestMeanA: 9, averagingMin: 120 },
      "averagingMin",
    ],
    ["means over no time", { highestMeanA: 9, averagingMin: 0 }, "averagingMin"],
    [
      "a short load that is no number",
      { highestMeanA: 9, averagingMin: 30, shortLoadA: Number.NaN },
      "shortLoadA",
    ],
  ])("refuses %s", (_what, recorded, name) =>
    expect(() => hiddenPeak(recorded, peakRatios)).toThrow(
      expect.objectContaining({ code: "OUT_OF_DOMAIN", details: expect.objectContaining({ name }) }),
    ),
  );
});

describe("dailyPeakRatios", () => {
  it("has no ratio for a day in which nothing was recorded, or nothing flowed", () => {
    const hours = (...currentA: number[]) => currentA.flatMap((value) => new Array<number>(6).fill(value));
    const currentA = Float64Array.from([
      ...[...hours(1, 1, 1), 1, 1, 1, 1, 1, 3],
      ...hours(0, 0, 0, 0),
      ...hours(Number.NaN, Number.NaN, Number.NaN, Number.NaN),
    ]);
    // Days of 24 hours: the highest is 3 A, and the highest mean of two hours is 2 A.
    expect(dailyPeakRatios({ intervalS: 3600, currentA }, 2)).toEqual([1.5]);
  });
});

describe("runsAbove", () => {
  const series = (...currentA: number[]): IntervalSeries => ({
    intervalS: 60,
    currentA: Float64Array.from(currentA),
  });
  it("counts what is above, not what is on it, to the last interval", () =>
    expect(runsAbove(series(11, 10, 11, 11, 9, 12), 10)).toEqual([1, 2, 1]));
  it("ends a run where nothing was recorded", () =>
    expect(runsAbove(series(11, Number.NaN, 11), 10)).toEqual([1, 1]));
});
