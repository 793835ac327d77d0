import { describe, expect, it } from "vitest";
import { optionsOf } from "../rules/index.ts";
import { nightly, smallSite } from "../testing/small-site.ts";
import { soundJob } from "../testing/sound-job.ts";
import { plannedSite, studied } from "../testing/studied.ts";
import type { BuildingSource } from "./building-source.ts";
import { mostTimeOutS } from "./most-time-out.ts";
import { optionNights } from "./option-nights.ts";

// 80 A every evening until midnight: a 100 A fuse leaves 20 A, the limit of 90 A leaves 10 A.
const building: BuildingSource = {
  kind: "recorded",
  days: 7,
  intervalS: 3600,
  intervalsPerDay: 24,
  from: "2026-01-05",
  lacks: [],
  fill: (_day, intoA) => {
    intoA.fill(5);
    intoA.fill(80, 17);
  },
};
const study = studied(soundJob());
const nights = optionNights(study, plannedSite(study), optionsOf(study), { building, days: 60, seed: 1 });

describe("optionNights", () => {
  it("keeps the managed option under the supply's limit but for the time it needs, and the full rate not", () => {
    const [full, managed] = [nights.get("full-rate"), nights.get("managed")];
    expect(full?.overS).toBeGreaterThan(20 * 3600);
    expect(managed?.overS).toBeLessThan(600);
    expect(managed?.fullShare).toBe(1);
    expect(managed?.sessions).toBe(full?.sessions);
    // Both end full; what is delivered beyond that is less than a step's energy a night.
    expect(managed?.kwhPerNight).toBeCloseTo(full?.kwhPerNight ?? Number.NaN, 2);
  });
  it("tells what the building was taken from", () => {
    expect(nights.get("managed")).toMatchObject({ days: 60, recordedDays: 7, intervalS: 3600 });
    const drawn: BuildingSource = { ...building, kind: "drawn", days: Number.POSITIVE_INFINITY, from: null };
    const run = { building: drawn, days: 7, seed: 1 };
    expect(
      optionNights(study, plannedSite(study), optionsOf(study), run).get("managed")?.recordedDays,
    ).toBeNull();
  });
  it("names the longest time-out of a load manager, and of nothing else", () => {
    const { plan } = plannedSite(study);
    expect(nights.get("managed")?.timeOut).toEqual({ mostS: mostTimeOutS(study, plan) });
    expect(nights.get("full-rate")).not.toHaveProperty("timeOut");
  });
  it("says nothing of the limit that a larger supply would have", () =>
    expect(nights.get("larger-supply")?.overS ?? null).toBeNull());
  it("counts by the night with a car, on the worst line, at no more than a charge point gives", () => {
    const plan = { ...smallSite, lineCount: 3, points: [{ id: "car", lines: [1], ratedA: 16 }] } as const;
    const onL2: BuildingSource = {
      ...building,
      fill: (_day, intoA) => {
        for (let at = 0; at < intoA.length; at++) intoA[at] = at % 3 === 1 ? 55 : 5;
      },
    };
    const seldom = { ...nightly, chargesPerWeek: 3 };
    const site = { ...plannedSite(study), plan, habits: [seldom] };
    const full = optionNights(study, site, optionsOf(study), { building: onL2, days: 30, seed: 1 }).get(
      "full-rate",
    );
    // 7.36 kWh a night, and a step's energy at the most beyond it; at 16 A and 230 V they take two hours, all of them over.
    expect(full?.kwhPerNight).toBeCloseTo(7.36, 2);
    expect((full?.overS ?? Number.NaN) / (full?.sessions ?? Number.NaN) / 3600).toBeCloseTo(2, 2);
  });
  it("is silent where no car comes", () => {
    const site = plannedSite(study);
    expect(
      optionNights(study, { ...site, habits: [] }, optionsOf(study), { building, days: 3, seed: 1 }).size,
    ).toBe(0);
  });
});
