import { describe, expect, it } from "vitest";
import { finished, type Recommendation, recommend, type Setting, sweeping } from "../simulation/index.ts";
import { buildingWith, nightly, smallSite } from "../testing/small-site.ts";
import type { BuildingSource, PlannedSite, SweptSite } from "../through-time/index.ts";
import { sweepView } from "./sweep-view.ts";

const plain = (text: string): string => text.replace(/[\u00a0\u202f]/g, " ");
const setting = (marginA: number, readEveryS = 1): Setting => ({
  limitA: 60,
  marginA,
  readEveryS,
  fallbackA: 0,
});
const evening = buildingWith(10, { fromH: 18.5, untilH: 19, currentA: 50 });
const building: BuildingSource = {
  ...evening,
  kind: "recorded",
  days: 1,
  intervalS: 60,
  from: "2026-11-01",
  lacks: [],
};

/** A day swept over some settings. */
function sweptSite(
  settings: readonly Setting[],
  change: Partial<SweptSite> = {},
  plan = smallSite,
): SweptSite {
  const swept = finished(sweeping({ plan, habits: [nightly], building, days: 2, seed: 1 }, settings));
  const withoutCars = finished(sweeping({ plan, habits: [], building, days: 2, seed: 1 }, settings))[0]
    ?.outcome;
  const terms = {
    plan,
    highestA: 60,
    usualS: 15,
    withoutCars: withoutCars as NonNullable<typeof withoutCars>,
  };
  const site = { plan, ungoverned: [], isManagerImagined: false } as unknown as PlannedSite;
  const recommendation = recommend(swept, terms);
  return {
    site,
    swept,
    building,
    terms,
    recommendation,
    fallbacks: [],
    fallbackA: 0,
    mostTimeOutS: 58,
    ...change,
  };
}
const said = (site: SweptSite): string => plain(sweepView(site).recommendation.join(" "));

describe("a sweep in sentences", () => {
  it("counts the settings that are left, and the recommended one among those that serve as well", () => {
    // A margin of 55 A leaves less than the least offer, so that car never charges.
    const text = said(sweptSite([setting(0), setting(2), setting(55)]));
    expect(text).toContain(
      "None is refused. Of the 3 that are left 1 serves the cars less well. Of the other 2 this one",
    );
    expect(text).toContain("reads least often");
  });
  it("says that days alone speak where delays bound nothing", () => {
    const law = { kind: "integrating", gain: 0.2 } as const;
    const plan = { ...smallSite, control: { ...smallSite.control, law } };
    const text = said(sweptSite([setting(0), setting(2)], {}, plan));
    expect(text).toContain("reads most often");
    expect(text).toContain("these days alone speak for it: that is no proof");
  });
  it("says once that all do the same", () =>
    expect(sweepView(sweptSite([setting(2), { ...setting(2), fallbackA: 6 }])).title).toContain(
      "they all do the same, shown once",
    ));
  it.each([
    [60, "ask for a larger supply"],
    [20, "Sweep higher limits"],
  ])("sends from a limit of %i A on which no car charges to what would help", (limitA, words) =>
    expect(said(sweptSite([{ ...setting(0), limitA, marginA: limitA - 5 }]))).toContain(words),
  );
  it("names a limit in force that the supply does not allow", () => {
    const plan = { ...smallSite, control: { ...smallSite.control, limitA: 70 } };
    const remarks = plain(sweepView(sweptSite([setting(0)], {}, plan)).remarks.join(" "));
    expect(remarks).toContain("The job's own limit of 70 A is above what the supply allows");
    expect(sweepView(sweptSite([setting(0)])).remarks.join()).not.toContain("own limit");
  });
});

describe("the fallbacks of a sweep", () => {
  const late = smallSite.control.fallbackAfterS - 2;
  const tried = (refusal: "over-too-long" | "cable-too-hot") => {
    const base = sweptSite([setting(2)]);
    const { outcome } = base.recommendation as Recommendation;
    const trial = { kind: "bus-lost-on-rise" as const, fallbackA: 0, outcome, refusal };
    return plain(sweepView({ ...base, fallbacks: [trial], mostTimeOutS: late }).fallbacks.join(" "));
  };
  it("blame the time-out where the supply was over for too long", () =>
    expect(tried("over-too-long")).toContain(`Set ${late} s or less`));
  it("blame no time-out for a hot cable", () => expect(tried("cable-too-hot")).not.toContain("or less"));
});
