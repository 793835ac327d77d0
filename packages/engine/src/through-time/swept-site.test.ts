import { describe, expect, it } from "vitest";
import { known } from "../job/index.ts";
import { finished, type Setting, sweeping } from "../simulation/index.ts";
import { setAt } from "../testing/set-at.ts";
import { buildingWith, nightly, smallSite } from "../testing/small-site.ts";
import { soundJob } from "../testing/sound-job.ts";
import { plannedSite, studied } from "../testing/studied.ts";
import type { BuildingSource } from "./building-source.ts";
import { judgeSweep, type SweepGrid, usualGrid } from "./swept-site.ts";

const study = studied(soundJob());
const siteWith = (control: Partial<typeof smallSite.control>) => ({
  ...plannedSite(study),
  plan: { ...smallSite, control: { ...smallSite.control, ...control } },
  habits: [nightly],
});
// 40 A, and 50 A for an hour in the evening: a car at 16 A, on what a margin of 4 A leaves of 60 A, makes 66 A of it.
const building: BuildingSource = {
  kind: "recorded",
  days: 1,
  intervalS: 60,
  from: "2026-01-05",
  lacks: [],
  ...buildingWith(40, { fromH: 19, untilH: 20, currentA: 50 }),
};
const SETTING: Setting = { limitA: 60, marginA: 4, readEveryS: 5, fallbackA: 0 };

/** One setting swept over two days, and judged. */
function judged(
  control: Partial<typeof smallSite.control>,
  fallbackA: SweepGrid["fallbackA"] = [0, 6, 16],
  of = study,
) {
  const site = siteWith(control);
  const { plan, habits } = site;
  const setting = { ...SETTING, fallbackA: fallbackA[0] ?? null };
  const swept = finished(sweeping({ plan, habits, building, days: 2, seed: 1 }, [setting]));
  const grid = { limitA: [60], marginA: [4], readEveryS: [5], fallbackA };
  return judgeSweep(of, site, { building, seed: 1, grid }, swept);
}

describe("usualGrid", () => {
  it("has the job's own margin and time between readings among its values, and each fallback once", () => {
    const grid = usualGrid(siteWith({ limitA: 57, marginA: 2, readEveryS: 3, fallbackA: 6 }), 10);
    expect(grid).toEqual({
      limitA: [60],
      marginA: [0, 1, 2, 3, 4, 5, 6, 8, 10],
      readEveryS: [1, 2, 3, 5, 10],
      fallbackA: [0, 6, 10],
    });
  });
  it("leaves out a margin below nothing: a limit above the supply's", () =>
    expect(usualGrid(siteWith({ limitA: 63 }), null).marginA[0]).toBe(0));
});

describe("judgeSweep", () => {
  it("judges by the highest limit of the study, and by the same days without any car", () => {
    const { terms } = judged({});
    expect(terms.highestA).toBe(plannedSite(study).highestLimitA);
    expect(terms.withoutCars.lines[0]?.mostA).toBe(50);
    expect(terms.withoutCars.days).toBe(2);
  });
  it("tries fallbacks at the recommended setting", () => {
    const { fallbacks } = judged({});
    const rise = fallbacks.find(({ kind, fallbackA }) => kind === "bus-lost-on-rise" && fallbackA === 0);
    expect(rise?.outcome.lines[0]?.mostA).toBe(66);
  });
  it("takes the highest fallback that stays safe, by the longest time operators allow", () => {
    // Until a time-out of 55 s is over the last offer stands: longer than usual, and within a minute.
    expect(judged({ fallbackAfterS: 55 }).fallbackA).toBe(6);
  });
  it("names none safe above what the design leaves with the building at its most, whatever these days show", () => {
    const full = setAt({ ...soundJob(), demand: { recordings: [] } }, "nodes[house].ratedA", known(97));
    // The house may draw all of the limit.
    const { designedA, fallbackA } = judged({ fallbackAfterS: 55 }, [0, 6, 16], studied(full));
    expect([designedA, fallbackA]).toEqual([0, 0]);
  });
  it("takes none that is safe with the bus broken before, and not with it breaking as the building rises", () => {
    const { fallbackA, fallbacks } = judged({ fallbackAfterS: 100 });
    const refusals = (kind: string) =>
      fallbacks.filter((trial) => trial.kind === kind).map(({ refusal }) => refusal);
    expect(refusals("bus-lost")).toEqual([null, null, "over-too-long"]);
    expect(refusals("bus-lost-on-rise")).toEqual(["over-too-long", "over-too-long", "over-too-long"]);
    expect(fallbackA).toBeNull();
  });
  it("allows the time-out that a minute leaves beside the recommended reading, whether a fallback is set or not", () => {
    // 60 s less 5 s between readings and 1 s for the command.
    expect([judged({}).mostTimeOutS, judged({ fallbackA: null }, [null]).mostTimeOutS]).toEqual([54, 54]);
  });
});
