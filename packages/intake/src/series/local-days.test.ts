import { describe, expect, it } from "vitest";
import { localDays } from "./local-days.ts";

/** Half-hours that count themselves from 0. */
const counted = (fromIso: string, count: number) => ({
  startMs: Date.parse(fromIso),
  series: [{ intervalS: 1800, currentA: Float64Array.from({ length: count }, (_, at) => at) }],
  zone: "Europe/London",
});

describe("localDays", () => {
  it("leaves out what is before the first midnight and after the last", () => {
    const days = localDays(counted("2026-01-05T23:00:00Z", 2 + 48 + 3));
    expect(days).toMatchObject({ from: "2026-01-06", days: 1 });
    expect([...(days?.series[0]?.currentA ?? [])]).toEqual(Array.from({ length: 48 }, (_, at) => at + 2));
  });
  it("begins a summer's day an hour earlier in UTC", () => {
    const days = localDays(counted("2026-07-05T23:00:00Z", 48));
    expect(days).toMatchObject({ from: "2026-07-06", days: 1 });
    expect(days?.series[0]?.currentA[0]).toBe(0);
  });
  // 29 October 2023 has 50 half-hours by the clock, 26 March 2023 has 46.
  it("takes the higher of the hour that comes twice, and the rest at its own time by the clock", () => {
    const days = localDays(counted("2023-10-28T23:00:00Z", 50 + 48));
    expect(days).toMatchObject({ from: "2023-10-29", days: 2 });
    expect([2, 3, 4, 47, 48].map((at) => days?.series[0]?.currentA[at])).toEqual([4, 5, 6, 49, 50]);
  });
  it("takes the first of it where that is higher, or the second was not recorded", () => {
    const { series, ...where } = counted("2023-10-28T23:00:00Z", 50);
    const currentA = series[0]?.currentA as Float64Array;
    currentA[2] = 80;
    currentA[5] = Number.NaN;
    const cut = localDays({ series, ...where })?.series[0]?.currentA;
    expect([cut?.[2], cut?.[3]]).toEqual([80, 3]);
  });
  it("carries 00:30 on through the hour that is left out, and has the rest at its own time by the clock", () => {
    const days = localDays(counted("2023-03-26T00:00:00Z", 46 + 48));
    expect(days).toMatchObject({ from: "2023-03-26", days: 2 });
    expect([1, 2, 3, 4, 47, 48].map((at) => days?.series[0]?.currentA[at])).toEqual([1, 1, 1, 2, 45, 46]);
  });
  it("leaves absent what is absent", () => {
    const { series, ...where } = counted("2026-01-05T00:00:00Z", 48);
    series[0]?.currentA.fill(Number.NaN, 5, 6);
    const cut = localDays({ series, ...where })?.series[0]?.currentA as Float64Array;
    expect([...cut.keys()].filter((at) => Number.isNaN(cut[at]))).toEqual([5]);
  });
  it("has nothing to give of less than a day, or in a place nobody knows", () => {
    expect(localDays(counted("2026-01-05T00:30:00Z", 60))).toBeNull();
    expect(localDays({ ...counted("2026-01-05T00:00:00Z", 48), zone: "Nowhere/At all" })).toBeNull();
  });
});
