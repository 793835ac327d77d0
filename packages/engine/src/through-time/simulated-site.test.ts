import { describe, expect, it } from "vitest";
import { buildingWith, nightly, smallSite } from "../testing/small-site.ts";
import { soundJob } from "../testing/sound-job.ts";
import { plannedSite, studied } from "../testing/studied.ts";
import type { BuildingSource } from "./building-source.ts";
import { simulateSite, simulatingSite } from "./simulated-site.ts";

const study = studied(soundJob());
const recorded = { kind: "recorded", days: 3, intervalS: 60, from: "2026-01-05", lacks: [] } as const;
const building: BuildingSource = { ...recorded, ...buildingWith(10) };
const siteWith = (fallbackA: number | null) => ({
  ...plannedSite(study),
  plan: { ...smallSite, control: { ...smallSite.control, fallbackA } },
  habits: [nightly],
});
const terms = { building, days: 1, seed: 1, triesFaults: true, designedFallbackA: 10 };

describe("simulateSite", () => {
  it.each([
    ["the fallback that is recorded", 6, 10, [6, null]],
    ["failing that the one of the design", null, 10, [10, null]],
    ["the last offer held alone where neither is known", null, null, [null]],
  ])("tries each fault with %s", (_what, recordedA, designedFallbackA, tried) => {
    const { trials } = simulateSite(study, siteWith(recordedA), { ...terms, designedFallbackA });
    expect(trials.filter(({ kind }) => kind === "bus-lost").map(({ fallbackA }) => fallbackA)).toEqual(tried);
  });
  it("classes the excursions of each line by themselves", () => {
    const onL2: BuildingSource = {
      ...building,
      fill: (_day, intoA) => {
        intoA.fill(10);
        intoA[3 * 600 + 1] = 70;
      },
    };
    const site = {
      ...siteWith(6),
      plan: { ...siteWith(6).plan, lineCount: 3 as const },
      lines: ["L1", "L2", "L3"] as const,
    };
    const { states } = simulateSite(study, site, { ...terms, building: onL2, triesFaults: false });
    // A minute, no longer than the longest: an event.
    expect(states.map((line) => line.map(({ state, lengthS }) => [state, lengthS]))).toEqual([
      [],
      [[2, 60]],
      [],
    ]);
  });
  it("tries faults in the days that were finished when it was stopped", () => {
    const rising: BuildingSource = {
      ...building,
      fill: (day, intoA) => void intoA.fill(10 + 20 * day),
    };
    const running = simulatingSite(study, siteWith(6), { ...terms, building: rising, days: 3 });
    running.next();
    const stopped = running.next(false);
    const trial = stopped.done ? stopped.value.trials.find(({ kind }) => kind === "nothing") : undefined;
    // The trial takes the day after its moment too: 30 A and 28 A of room, not the 50 A of the day after that.
    expect(stopped.done && stopped.value.outcome.days).toBe(1);
    expect(trial?.outcome.dayRecords.map(({ mostA }) => mostA[0])).toEqual([42, 60]);
  });
});
