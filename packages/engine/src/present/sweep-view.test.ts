import { describe, expect, it } from "vitest";
import {
  finished,
  type Recommendation,
  recommend,
  type Setting,
  type SiteOutcome,
  sweeping,
} from "../simulation/index.ts";
import { plain } from "../testing/shown-run.ts";
import { buildingWith, nightly, smallSite } from "../testing/small-site.ts";
import type { BuildingSource, PlannedSite, SweptSite } from "../through-time/index.ts";
import { sweepView } from "./sweep-view.ts";

const session = (deliveredKwh: number) =>
  ({
    untilS: 1,
    wantedKwh: 10,
    deliveredKwh,
    isFull: deliveredKwh === 10,
  }) as SiteOutcome["sessions"][number];
const outcomeOf = (
  changes: {
    readonly totalS?: number;
    readonly aloneS?: number;
    readonly fast?: number;
  } & Partial<SiteOutcome> = {},
) => {
  const { totalS = 0, aloneS = 0, fast = 0, ...rest } = changes;
  const line = (share: number) => ({
    over: {
      count: 1,
      totalS: totalS * share,
      longestS: (totalS * share) / 2,
      aloneS: aloneS * share,
      carS: (totalS - aloneS) * share,
    },
    mostA: 60,
    fuse: { fast: fast * share, slow: 0, minute: 1 },
  });
  return {
    days: 2,
    sessions: [session(10), session(9)],
    fullShare: 0.5,
    deliveredKwh: 19,
    lines: [line(0.5), line(1)],
    bodies: [],
    excursions: [],
    absentH: 0,
    ...rest,
  } as unknown as SiteOutcome;
};
const setting = (marginA: number): Setting => ({ limitA: 60, marginA, readEveryS: 5, fallbackA: 6 });
const NONE = {
  "margin-too-small": 0,
  "time-out-too-short": 0,
  "too-slow": 0,
  "over-too-long": 0,
  "fuse-too-near": 0,
  "cable-too-hot": 0,
};
const near = {
  setting: setting(0),
  outcome: outcomeOf({ fast: 0.6, totalS: 700, aloneS: 600, fullShare: 0.998 }),
};
const good = { setting: setting(4), outcome: outcomeOf({ totalS: 20 }) };
const like = { setting: setting(5), outcome: good.outcome };

/** Three settings that do two things: one nears the fuse, two are alike and the first of those is recommended. */
function viewOf(changes: Partial<SweptSite> = {}, askedCount?: number) {
  const swept = {
    site: { plan: smallSite, ungoverned: [], misplaced: [] },
    swept: [near, good, like],
    building: {
      kind: "recorded",
      days: 2,
      intervalS: 60,
      intervalsPerDay: 1440,
      from: "2026-01-05",
      lacks: [],
    },
    terms: { plan: smallSite, highestA: 60, usualS: 15, withoutCars: outcomeOf() },
    recommendation: {
      ...good,
      refused: { ...NONE, "fuse-too-near": 1 },
      worseCount: 0,
      equalCount: 2,
      isBounded: true,
      next: [near],
    },
    fallbacks: [],
    fallbackA: null,
    designedA: null,
    mostTimeOutS: null,
    ...changes,
  } as unknown as SweptSite;
  return JSON.parse(plain(JSON.stringify(sweepView(swept, askedCount)))) as ReturnType<typeof sweepView>;
}

describe("the title", () => {
  it("counts settings, days, sessions, and what is different", () =>
    expect(viewOf().title).toBe(
      "3 settings over 2 days with 2 sessions of charging; they do 2 different things, shown once each.",
    ));
  it("says how many were run when it was stopped", () =>
    expect(viewOf({}, 9).title).toMatch(/^Stopped: 3 of 9 settings/));
  it("says so where all are different", () =>
    expect(viewOf({ swept: [near, good] }).title).toContain("all differ in what they do"));
});

describe("the rows", () => {
  it("show each thing once, on the worst line, a share of mornings rounded down and of the fuse up", () => {
    const [first, second] = viewOf().rows;
    expect(viewOf().rows).toHaveLength(2);
    expect(first).toMatchObject({
      margin: "0 A",
      mornings: "99 %",
      // One of ten kilowatt-hours missing in one of two sessions.
      missing: "0.50 kWh",
      longest: "350 s",
      over: "12 min",
      byCars: "100 s",
      fuse: "60 %",
      refused: "too near the fuse",
      isRecommended: false,
    });
    expect(second).toMatchObject({ margin: "4 A", refused: "", isRecommended: true });
  });
  it("round the fuse's life in use up", () =>
    expect(viewOf({ swept: [{ ...near, outcome: outcomeOf({ fast: 0.601 }) }] }).rows[0]?.fuse).toBe("61 %"));
});

describe("the recommendation", () => {
  it("gives the current to set, what spoke against the others, and the neighbour with its refusal", () => {
    const said = viewOf().recommendation;
    expect(said[0]).toBe("Set 56 A, a margin of 4 A under 60 A, and a reading every 5 s.");
    expect(said[1]).toMatch(
      /^Refused: 1 too near the fuse\. Of the 2 that are left 0 serve the cars less well. The other 2 serve them about alike/,
    );
    expect(said[2]).toMatch(
      /^With a margin of 0 A: sessions full 99 %, .* longest 350 s over, 100 s in all .* – too near the fuse\.$/,
    );
  });
  it("says that days tell nothing apart only where no car was in any time over the limit", () => {
    const untold = "These days do not tell the settings apart";
    expect(viewOf().recommendation.join()).not.toContain(untold);
    const alone = { ...good, outcome: outcomeOf({ totalS: 20, aloneS: 20 }) };
    expect(viewOf({ swept: [alone, { ...alone, setting: setting(5) }] }).recommendation.join()).toContain(
      untold,
    );
    const one = { ...good, refused: NONE, worseCount: 0, equalCount: 1, isBounded: true, next: [] };
    expect(viewOf({ swept: [alone], recommendation: one }).recommendation.join()).not.toContain(untold);
  });
  it.each([
    ["no setting is safe", 3, "No setting here is safe. Refused: 3 too near the fuse."],
    ["no car charges under those that are", 2, "No car charges under the settings that are not refused."],
  ])("says where %s", (_what, count, words) => {
    const recommendation = { setting: null, refused: { ...NONE, "fuse-too-near": count } };
    const view = viewOf({ recommendation });
    expect(view.recommendation[0]).toContain(words);
    expect(view.rows.some(({ isRecommended }) => isRecommended)).toBe(false);
  });
});

describe("the remarks", () => {
  const alone = (withoutCars: SiteOutcome) =>
    viewOf({ terms: { plan: smallSite, highestA: 60, usualS: 15, withoutCars } }).remarks.join(" ");
  it("tell what the building does by itself, on whichever line", () => {
    expect(alone(outcomeOf())).not.toContain("by itself");
    const over = outcomeOf({ totalS: 90, fast: 0.9 });
    expect(alone({ ...over, lines: [...over.lines, ...outcomeOf().lines] })).toContain(
      "is over the supply's limit for 90 s in these days: no setting helps that",
    );
    expect(alone(outcomeOf({ totalS: 90, fast: 1 }))).toContain(
      "in these days, and the main fuse may operate: no",
    );
  });
  it("say where no curve is held for the fuse", () => {
    const words = "No time-current band is held";
    expect(viewOf().remarks.join()).not.toContain(words);
    const site = {
      plan: { ...smallSite, fuse: null },
      ungoverned: [],
      misplaced: [],
    } as unknown as SweptSite["site"];
    expect(viewOf({ site }).remarks.join()).toContain(words);
  });
});

describe("what holds for a sweep whatever its days show", () => {
  it("names the transformer that misses something", () => {
    const site = { plan: smallSite, ungoverned: [], misplaced: ["ct-2"] } as unknown as SweptSite["site"];
    expect(viewOf({ site }).remarks.join()).toContain("ct-2 does not see all");
    expect(viewOf().remarks.join()).not.toContain("does not see all");
  });
  it("names what the design leaves each charge point", () => {
    const trial = { kind: "bus-lost", fallbackA: 6, outcome: outcomeOf(), refusal: null } as const;
    expect(viewOf({ fallbacks: [trial], designedA: 0 }).fallbacks.join()).toContain(
      "the design leaves each charge point 0 A: no higher fallback is named safe",
    );
  });
  it("sends to a year only what was less", () => {
    const alone = (days: number) => ({ ...good, outcome: outcomeOf({ totalS: 20, aloneS: 20, days }) });
    const said = (days: number) => viewOf({ swept: [alone(days), alone(days)] }).recommendation.join();
    expect(said(56)).toContain("Sweep a year, or more days.");
    expect(said(365)).not.toContain("Sweep a year");
  });
});

describe("the fallbacks", () => {
  const tried = (
    kind: "bus-lost" | "bus-lost-on-rise",
    fallbackA: number | null,
    refusal: "over-too-long" | null,
  ) => ({ kind, fallbackA, outcome: outcomeOf({ totalS: 100 }), refusal }) as SweptSite["fallbacks"][number];
  const said = (fallbacks: SweptSite["fallbacks"], more: Partial<SweptSite> = {}) =>
    viewOf({ fallbacks, ...more }).fallbacks;
  it("tell each as it was tried, and the highest that stays safe", () =>
    expect(
      said([tried("bus-lost", 6, null), tried("bus-lost-on-rise", null, "over-too-long")], { fallbackA: 6 }),
    ).toEqual([
      "6 A, broken an hour before: over for up to 50 s, life of the fuse used 0 %.",
      "last offer held, breaking as it rises most: over for up to 50 s, life of the fuse used 0 % – over too long.",
      "Fallback 6 A per charge point is the highest of these that stays safe with the bus broken.",
    ]));
  it.each([
    [59, true],
    [60, false],
  ])("with %d s as the longest time-out, one of 60 s is too long: %s", (mostTimeOutS, isTold) => {
    const told = said([tried("bus-lost-on-rise", 0, "over-too-long")], { mostTimeOutS }).join(" ");
    expect(told.includes("The time-out of 60 s is too long where the building rises")).toBe(isTold);
    expect(told.includes("Set 59 s or less")).toBe(isTold);
  });
  it("blame no time-out where nothing came of the rise", () =>
    expect(
      said([tried("bus-lost", 0, "over-too-long"), tried("bus-lost-on-rise", 0, null)], {
        mostTimeOutS: 5,
      }).join(),
    ).not.toContain("time-out"));
  it("ask for a pause only where none was tried", () => {
    expect(said([tried("bus-lost", 6, "over-too-long")]).at(-1)).toContain("let the cars pause (fallback 0)");
    expect(said([tried("bus-lost", 0, "over-too-long")]).at(-1)).toContain("not even a pause");
  });
});

const sweptAt = (marginA: number, readEveryS = 1): Setting => ({
  limitA: 60,
  marginA,
  readEveryS,
  fallbackA: 0,
});
const evening = buildingWith(10, { fromH: 18.5, untilH: 19, currentA: 50 });
const twoDays: BuildingSource = {
  ...evening,
  kind: "recorded",
  days: 1,
  intervalS: 60,
  from: "2026-11-01",
  lacks: [],
};

/** A day swept over some settings. */
function sweptDays(
  settings: readonly Setting[],
  change: Partial<SweptSite> = {},
  plan = smallSite,
): SweptSite {
  const swept = finished(
    sweeping({ plan, habits: [nightly], building: twoDays, days: 2, seed: 1 }, settings),
  );
  const withoutCars = finished(
    sweeping({ plan, habits: [], building: twoDays, days: 2, seed: 1 }, settings),
  )[0]?.outcome;
  const terms = {
    plan,
    highestA: 60,
    usualS: 15,
    withoutCars: withoutCars as NonNullable<typeof withoutCars>,
  };
  const site = { plan, ungoverned: [], isManagerImagined: false, misplaced: [] } as unknown as PlannedSite;
  const recommendation = recommend(swept, terms);
  return {
    site,
    swept,
    building: twoDays,
    terms,
    recommendation,
    fallbacks: [],
    fallbackA: 0,
    designedA: null,
    mostTimeOutS: 58,
    ...change,
  };
}
const said = (site: SweptSite): string => plain(sweepView(site).recommendation.join(" "));

describe("a sweep in sentences", () => {
  it("counts the settings that are left, and the recommended one among those that serve as well", () => {
    // A margin of 55 A leaves less than the least offer, so that car never charges.
    const text = said(sweptDays([sweptAt(0), sweptAt(2), sweptAt(55)]));
    expect(text).toContain(
      "None is refused. Of the 3 that are left 1 serves the cars less well. The other 2 serve them about alike",
    );
    expect(text).toContain("reads least often");
  });
  it("says that days alone speak where delays bound nothing", () => {
    const law = { kind: "integrating", gain: 0.2 } as const;
    const plan = { ...smallSite, control: { ...smallSite.control, law } };
    const text = said(sweptDays([sweptAt(0), sweptAt(2)], {}, plan));
    expect(text).toContain("reads most often");
    expect(text).toContain("these days alone speak for it: that is no proof");
  });
  it("says once that all do the same", () =>
    expect(sweepView(sweptDays([sweptAt(2), { ...sweptAt(2), fallbackA: 6 }])).title).toContain(
      "they all do the same, shown once",
    ));
  it.each([
    [60, "ask for a larger supply"],
    [20, "Sweep higher limits"],
  ])("sends from a limit of %i A on which no car charges to what would help", (limitA, words) =>
    expect(said(sweptDays([{ ...sweptAt(0), limitA, marginA: limitA - 5 }]))).toContain(words),
  );
  it("names a limit in force that the supply does not allow", () => {
    const plan = { ...smallSite, control: { ...smallSite.control, limitA: 70 } };
    const remarks = plain(sweepView(sweptDays([sweptAt(0)], {}, plan)).remarks.join(" "));
    expect(remarks).toContain("The job's own limit of 70 A is above what the supply allows");
    expect(sweepView(sweptDays([sweptAt(0)])).remarks.join()).not.toContain("own limit");
  });
});

describe("the fallbacks of a sweep", () => {
  const late = smallSite.control.fallbackAfterS - 2;
  const tried = (refusal: "over-too-long" | "cable-too-hot") => {
    const base = sweptDays([sweptAt(2)]);
    const { outcome } = base.recommendation as Recommendation;
    const trial = { kind: "bus-lost-on-rise" as const, fallbackA: 0, outcome, refusal };
    return plain(sweepView({ ...base, fallbacks: [trial], mostTimeOutS: late }).fallbacks.join(" "));
  };
  it("blame the time-out where the supply was over for too long", () =>
    expect(tried("over-too-long")).toContain(`Set ${late} s or less`));
  it("blame no time-out for a hot cable", () => expect(tried("cable-too-hot")).not.toContain("or less"));
});
