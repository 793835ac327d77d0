import { describe, expect, it } from "vitest";
import { smallSite } from "../testing/small-site.ts";
import type { SiteOutcome } from "./outcome.ts";
import { recommend, refusalOf, settingRefusal } from "./recommend.ts";
import type { Setting } from "./sweep.ts";

const session = { car: 0, startS: 0, untilS: 1, wantedKwh: 10, deliveredKwh: 10, isFull: true, waitedS: 0 };
const line = (fast: number) => ({
  over: { count: 0, totalS: 0, longestS: 0, aloneS: 0, carS: 0 },
  mostA: 60,
  mostOutA: 0,
  fuse: { fast, slow: 0, minute: null },
});
const outcome = (changes: Partial<SiteOutcome> & { readonly fast?: number } = {}): SiteOutcome => ({
  days: 1,
  sessions: [session],
  cutShort: 0,
  deliveredKwh: 10,
  missingKwh: 0,
  fullShare: 1,
  chargingH: 1,
  throttledH: 0,
  pausedH: 0,
  starts: 1,
  lines: [line(changes.fast ?? 0)],
  bodies: [{ id: "tails", line: 0, mostC: 50, limitC: 70, minute: null }],
  excursions: [],
  dayRecords: [],
  absentH: 0,
  ...changes,
});
const terms = { usualS: 15, withoutCars: outcome(), plan: smallSite, highestA: 60 };
const setting = (marginA: number, more: Partial<Setting> = {}): Setting => ({
  limitA: 60,
  marginA,
  readEveryS: 5,
  fallbackA: 6,
  ...more,
});
const NONE_REFUSED = {
  "margin-too-small": 0,
  "time-out-too-short": 0,
  "too-slow": 0,
  "over-too-long": 0,
  "fuse-too-near": 0,
  "cable-too-hot": 0,
};
const excursion = (lengthS: number, aloneS: number, carS: number) => ({
  line: 0,
  startS: 0,
  lengthS,
  aloneS,
  carS,
});

describe("refusalOf", () => {
  it.each([
    ["nothing wrong", outcome(), null],
    ["an excursion of exactly the usual time", outcome({ excursions: [excursion(15, 0, 15)] }), null],
    ["a longer one", outcome({ excursions: [excursion(16, 0, 16)] }), "over-too-long"],
    ["a longer one by the building alone", outcome({ excursions: [excursion(600, 590, 15)] }), null],
    [
      "a car that draws on while the building alone is over",
      outcome({ excursions: [excursion(600, 590, 16)] }),
      "over-too-long",
    ],
    ["the fuse just under half its life", outcome({ fast: 0.499 }), null],
    ["the fuse at half its life", outcome({ fast: 0.5 }), "fuse-too-near"],
    [
      "a cable above its limit",
      outcome({ bodies: [{ id: "t", line: 0, mostC: 70.1, limitC: 70, minute: 1 }] }),
      "cable-too-hot",
    ],
  ] as const)("%s", (_what, of, refusal) => expect(refusalOf(of, terms)).toBe(refusal));
  it("holds nothing against a setting that the building does by itself", () => {
    const hot = { bodies: [{ id: "t", line: 0, mostC: 90, limitC: 70, minute: 1 }] };
    const withoutCars = outcome({ fast: 0.8, ...hot });
    expect(refusalOf(outcome({ fast: 0.8, ...hot }), { usualS: 15, withoutCars })).toBeNull();
    expect(refusalOf(outcome({ fast: 0.9 }), { usualS: 15, withoutCars })).toBe("fuse-too-near");
  });
});

describe("settingRefusal", () => {
  it.each([
    ["a sound one", setting(0), {}, null],
    ["one at the highest that may be set", setting(2), { highestA: 58 }, null],
    ["one above it", setting(1), { highestA: 58 }, "margin-too-small"],
    ["delays of just the usual time", setting(0, { readEveryS: 12 }), {}, null],
    ["longer ones, whatever these days showed", setting(0, { readEveryS: 13 }), {}, "too-slow"],
  ] as const)("%s", (_what, of, change, refusal) => {
    // W 0 + P + D 0 + C 3 s, and a car that falls at once.
    const control = { ...smallSite.control, averageS: 0, decideEveryS: 0, commandS: 3 };
    const asked = { ...terms, plan: { ...smallSite, control }, ...change };
    expect(settingRefusal({ setting: of, outcome: outcome() }, asked)).toBe(refusal);
  });
  it.each([0, 1])(
    "refuses a time-out that is over before the next reading, deciding every %i s",
    (decideEveryS) => {
      const control = { ...smallSite.control, decideEveryS, fallbackAfterS: 5 };
      const asked = { ...terms, plan: { ...smallSite, control } };
      const refused = (readEveryS: number) =>
        settingRefusal({ setting: setting(0, { readEveryS }), outcome: outcome() }, asked);
      expect([refused(5), refused(6)]).toEqual([null, "time-out-too-short"]);
    },
  );
});

describe("recommend", () => {
  const hungry = outcome({ fullShare: 0.5, sessions: [{ ...session, deliveredKwh: 4, isFull: false }] });
  const swept = [
    { setting: setting(0), outcome: outcome({ excursions: [excursion(40, 0, 40)] }) },
    { setting: setting(2), outcome: outcome() },
    { setting: setting(4), outcome: outcome() },
    { setting: setting(10), outcome: hungry },
  ];
  it("takes less time over the limit with a car charging before a wider margin, and leaves out the building's own", () => {
    const [like] = outcome().lines as readonly [ReturnType<typeof line>];
    const over = (totalS: number, aloneS: number, carS: number) =>
      outcome({ lines: [{ ...like, over: { count: 2, totalS, longestS: 9, aloneS, carS } }] });
    const best = recommend(
      [
        { setting: setting(2), outcome: over(500, 490, 20) },
        { setting: setting(4), outcome: over(70, 0, 70) },
      ],
      terms,
    );
    expect(best.setting).toMatchObject({ marginA: 2 });
  });
  it("takes the widest margin that costs the cars nothing, and names both neighbours", () => {
    const best = recommend(swept, terms);
    expect(best).toMatchObject({
      setting: { marginA: 4 },
      refused: { ...NONE_REFUSED, "over-too-long": 1 },
      worseCount: 1,
      equalCount: 2,
      next: [{ setting: { marginA: 10 } }, { setting: { marginA: 2 } }],
    });
  });
  it("judges every setting by the same sessions: those the last day cuts short count for none", () => {
    const cut = { ...session, untilS: 86_401 };
    const best = recommend(
      [
        // Full before the end, and cut short under the wider margin: neither tells anything of the morning.
        { setting: setting(2), outcome: outcome({ sessions: [session, cut] }) },
        { setting: setting(4), outcome: outcome({ sessions: [session], cutShort: 1 }) },
        { setting: setting(6), outcome: hungry },
      ],
      terms,
    );
    expect(best).toMatchObject({ setting: { marginA: 4 }, worseCount: 1 });
    const cutOnly = { setting: setting(2), outcome: outcome({ sessions: [cut] }) };
    expect(recommend([cutOnly], terms).setting).toBeNull();
  });
  it("takes a hundredth of the sessions for as good, and not more", () => {
    const full = (share: number) =>
      outcome({
        sessions: Array.from({ length: 1000 }, (_, at) => ({ ...session, isFull: at < 1000 * share })),
      });
    const best = recommend(
      [
        { setting: setting(2), outcome: full(1) },
        { setting: setting(4), outcome: full(0.991) },
        { setting: setting(6), outcome: full(0.985) },
      ],
      terms,
    );
    expect(best).toMatchObject({ setting: { marginA: 4 }, equalCount: 2, worseCount: 1 });
  });
  it("takes a tenth of a kilowatt-hour missing a session for as good, and not more", () => {
    const short = (missingKwh: number) => {
      const one = { ...session, deliveredKwh: 10 - missingKwh, isFull: false };
      return outcome({ fullShare: 0, sessions: [one, one] });
    };
    const best = recommend(
      [
        { setting: setting(2), outcome: short(0) },
        { setting: setting(4), outcome: short(0.09) },
        { setting: setting(6), outcome: short(0.11) },
      ],
      terms,
    );
    expect(best).toMatchObject({ setting: { marginA: 4 }, equalCount: 2, worseCount: 1 });
  });
  it("takes the lower limit of two that leave the same room, and the highest fallback that does as well", () => {
    const lower = setting(2, { limitA: 58, fallbackA: 0 });
    const swept = [setting(4), lower, { ...lower, fallbackA: 10 }, { ...lower, fallbackA: 6 }];
    const best = recommend(
      swept.map((one) => ({ setting: one, outcome: outcome() })),
      terms,
    );
    expect(best.setting).toEqual({ ...lower, fallbackA: 10 });
  });
  it("names as neighbours only those that differ in nothing but the margin", () => {
    const others = [setting(3, { readEveryS: 10 }), setting(6, { fallbackA: 0 }), setting(8, { limitA: 61 })];
    const best = recommend([...swept, ...others.map((one) => ({ setting: one, outcome: hungry }))], terms);
    expect(best).toMatchObject({ next: [{ setting: { marginA: 10 } }, { setting: { marginA: 2 } }] });
  });
  it("asks for the slowest reading that does as well", () => {
    const slow = { setting: setting(4, { readEveryS: 10 }), outcome: outcome() };
    expect(recommend([...swept, slow], terms).setting?.readEveryS).toBe(10);
  });
  it("asks for the quickest reading, and says so, where delays bound nothing", () => {
    const law = { kind: "integrating", gain: 0.2 } as const;
    const plan = { ...smallSite, control: { ...smallSite.control, law } };
    const slow = { setting: setting(4, { readEveryS: 60 }), outcome: outcome() };
    const best = recommend([slow, ...swept], { ...terms, plan });
    expect(best).toMatchObject({ setting: { readEveryS: 5 }, isBounded: false });
    expect(recommend(swept, terms)).toMatchObject({ isBounded: true });
    // The job's own time-out is over between its readings; those that are left have none of that.
    const own = { ...smallSite.control, decideEveryS: 1, readEveryS: 90, fallbackA: 6 };
    const timesOut = { ...terms, plan: { ...smallSite, control: own } };
    expect(recommend(swept, timesOut)).toMatchObject({ isBounded: true });
  });
  it("serves the cars first when a margin costs them", () => {
    const best = recommend([swept[1], swept[3]] as never, terms);
    expect(best.setting?.marginA).toBe(2);
  });
  it("recommends nothing where no car came", () => {
    const quiet = { setting: setting(4), outcome: outcome({ sessions: [], fullShare: null }) };
    expect(recommend([quiet], terms).setting).toBeNull();
  });
  it("recommends nothing that is safe only because no car ever charges", () => {
    const never = { setting: setting(55), outcome: outcome({ deliveredKwh: 0, fullShare: 0 }) };
    expect(recommend([swept[0] as (typeof swept)[number], never], terms).setting).toBeNull();
  });
  it("recommends nothing where nothing is safe, and says what spoke against it", () =>
    expect(recommend(swept.slice(0, 1), terms)).toEqual({
      setting: null,
      refused: { ...NONE_REFUSED, "over-too-long": 1 },
    }));
});
