import { describe, expect, it } from "vitest";
import { promptControl } from "../testing/prompt-control.ts";
import { buildingWith, nightly, smallSite } from "../testing/small-site.ts";
import { finished, simulate } from "./simulate.ts";
import { planWith, settingsOf, sweeping } from "./sweep.ts";

const building = buildingWith(
  12,
  { fromH: 18.25, untilH: 19, currentA: 35 },
  { fromH: 20, untilH: 20.5, currentA: 52 },
);
const simulation = { plan: smallSite, habits: [nightly], building, days: 3, seed: 2 };
const settings = settingsOf({
  limitA: [60, 50],
  marginA: [0, 5, 10],
  readEveryS: [1, 10],
  fallbackA: [6, null],
});

describe("sweeping", () => {
  it("gives each setting what it gives alone", () => {
    const swept = finished(sweeping(simulation, settings));
    expect(swept.map(({ setting }) => setting)).toEqual(settings);
    for (const { setting, outcome } of swept)
      expect(outcome).toEqual(simulate({ ...simulation, plan: planWith(smallSite, setting) }));
  });
  it("runs settings that cannot differ once, and those that can apart", () => {
    const outcomes = (faults: typeof smallSite.faults) =>
      new Set(
        finished(sweeping({ ...simulation, plan: { ...smallSite, faults } }, settings)).map(
          ({ outcome }) => outcome,
        ),
      ).size;
    // Limit less margin: 60, 55, 50, 45, 40; two readings. With something wrong the fallback tells too.
    expect(outcomes([])).toBe(10);
    expect(outcomes([{ kind: "bus-lost", fromS: 66_000, untilS: 80_000 }])).toBe(20);
  });
  it("keeps fallbacks apart where the time-out is over between readings", () => {
    const control = { ...smallSite.control, decideEveryS: 1, fallbackAfterS: 5 };
    const slow = { ...simulation, plan: { ...smallSite, control } };
    const pair = settings.filter(
      ({ limitA, marginA, readEveryS }) => limitA === 60 && marginA === 0 && readEveryS === 10,
    );
    const swept = finished(sweeping(slow, pair));
    for (const { setting, outcome } of swept)
      expect(outcome).toEqual(simulate({ ...slow, plan: planWith(slow.plan, setting) }));
    expect(swept[0]?.outcome.deliveredKwh).not.toBe(swept[1]?.outcome.deliveredKwh);
  });
  it("keeps everything else of the plan", () =>
    expect(planWith(smallSite, settings[0] as (typeof settings)[number]).control.turnS).toBe(
      promptControl.turnS,
    ));
});
