import { describe, expect, it } from "vitest";
import { buildingWith, nightly, smallSite } from "../testing/small-site.ts";
import { faultTrials, peakOf, riseOf, TRIALS } from "./trials.ts";

// Dull until seven, then 50 A for an hour: a car that goes on at 32 A makes 82 A of it.
const building = {
  intervalsPerDay: 1440,
  fill: (day: number, intoA: Float64Array) =>
    buildingWith(10, ...(day === 2 ? [{ fromH: 19, untilH: 20, currentA: 50 }] : [])).fill(day, intoA),
};
const trials = faultTrials({ plan: smallSite, habits: [nightly], building, days: 5, fallbacksA: [6, null] });
const longestS = (kind: string, fallbackA: number | null) =>
  trials.find((trial) => trial.kind === kind && trial.fallbackA === fallbackA)?.outcome.lines[0]?.over
    .longestS;

describe("peakOf", () => {
  it("finds the day, the time and the line", () =>
    expect(peakOf(building, 5, { lineCount: 1, lines: 1 })).toEqual({ day: 2, timeS: 19 * 3600, line: 0 }));
});

describe("faultTrials", () => {
  it("tries every fault with each fallback", () =>
    expect(trials.map(({ kind, fallbackA }) => [kind, fallbackA])).toEqual(
      TRIALS.flatMap((kind) => (kind === "nothing" ? [6] : [6, null]).map((fallbackA) => [kind, fallbackA])),
    ));
  it("runs the day before the peak too, so that cables are as warm as they would be, and the day after", () => {
    const daysOf = (peakDay: number) =>
      faultTrials({
        plan: smallSite,
        habits: [nightly],
        building: { ...building, fill: (day, intoA) => void intoA.fill(day === peakDay ? 50 : 40) },
        days: 5,
        fallbacksA: [6],
        kinds: ["nothing"],
      })[0]?.outcome.days;
    expect([daysOf(0), daysOf(2)]).toEqual([2, 3]);
  });
  it("shows a chain that works", () => expect(longestS("nothing", 6)).toBe(1));
  it("a bus that breaks as the building rises leaves the last offer until the time-out is over", () => {
    // The last reading came at seven, when the building still drew 10 A; 60 s without one, then a step to fall.
    expect(longestS("bus-lost-on-rise", 6)).toBe(60);
    expect(longestS("bus-lost-on-rise", null)).toBe(3600);
  });
  it("finds the rise that takes the supply highest, not the peak", () => {
    // At noon from 10 A to 45 A, with room for the whole of 32 A before; at seven from 45 A to 50 A.
    const lines = buildingWith(
      10,
      { fromH: 12, untilH: 19, currentA: 45 },
      { fromH: 19, untilH: 20, currentA: 50 },
    );
    const looked = { lineCount: 1, lines: 1 };
    expect(peakOf(lines, 1, looked).timeS).toBe(19 * 3600);
    expect(riseOf(lines, 1, looked, { limitA: 60, mostA: 32 }).timeS).toBe(12 * 3600);
    // With 16 A at most both rises are met by it; the higher building decides.
    expect(riseOf(lines, 1, looked, { limitA: 60, mostA: 10 }).timeS).toBe(19 * 3600);
  });
  it("takes no car's current off a building that is over by itself when it looks for the rise", () => {
    // 66 A in the seventh hour, with no room before; 40 A to 45 A at noon, with room for 20 A.
    const over = buildingWith(
      65,
      { fromH: 6, untilH: 7, currentA: 66 },
      { fromH: 7, untilH: 12, currentA: 40 },
      { fromH: 12, untilH: 24, currentA: 45 },
    );
    expect(riseOf(over, 1, { lineCount: 1, lines: 1 }, { limitA: 60, mostA: 32 }).timeS).toBe(6 * 3600);
  });
  it("looks for the rise that is highest under the limit less its margin", () => {
    const days = [
      buildingWith(10),
      buildingWith(20, { fromH: 19, untilH: 20, currentA: 45 }),
      buildingWith(10),
      // Up to 48 A by steps that leave no offer high, and from there to 72 A.
      buildingWith(
        48,
        { fromH: 0, untilH: 1, currentA: 30 },
        { fromH: 1, untilH: 2, currentA: 40 },
        { fromH: 19, untilH: 20, currentA: 72 },
      ),
      buildingWith(10),
    ];
    const rising: Parameters<typeof riseOf>[0] = {
      intervalsPerDay: 1440,
      fill: (day, intoA) => days[day]?.fill(day, intoA),
    };
    const control = { ...smallSite.control, marginA: 10 };
    const [trial] = faultTrials({
      plan: { ...smallSite, control },
      habits: [nightly],
      building: rising,
      days: 5,
      fallbacksA: [0],
      kinds: ["bus-lost-on-rise"],
    });
    // Day 1: 45 A and the 30 A there were under 50 A. On day 3 72 A leave no car more than 2 A, which is none.
    expect(trial?.outcome.lines[0]?.mostA).toBe(75);
  });
  it("keeps what is wrong with the site already: a car that follows no offer", () => {
    const standing = {
      kind: "car-ignores-offer",
      point: 0,
      fromS: 0,
      untilS: Number.POSITIVE_INFINITY,
    } as const;
    const [trial] = faultTrials({
      plan: { ...smallSite, faults: [standing] },
      habits: [nightly],
      building,
      days: 5,
      fallbacksA: [6],
      kinds: ["bus-lost"],
    });
    expect(trial?.outcome.lines[0]?.over.longestS).toBe(3600);
  });
  it.each(["bus-lost", "meter-lost"])(
    "%s: the fallback saves it, and without one it is over for the hour",
    (kind) => {
      expect(longestS(kind, 6)).toBe(0);
      expect(longestS(kind, null)).toBe(3600);
    },
  );
  it.each(["reading-frozen", "transformer-reversed", "ratio-half", "line-missing", "car-ignores-offer"])(
    "%s: no fallback helps, because the manager goes on deciding",
    (kind) => expect([longestS(kind, 6), longestS(kind, null)]).toEqual([3600, 3600]),
  );
  it("a manager that goes off a minute before leaves four with the last offer, and two steps to come back", () => {
    expect(longestS("manager-restarted", 6)).toBe(0);
    expect(longestS("manager-restarted", null)).toBe(241);
  });
  it("tells of a fault even where the car's usual charge would be over before", () => {
    const small = { ...nightly, medianKwh: 3, mostKwh: 3 };
    const [tried] = faultTrials({
      plan: smallSite,
      habits: [small],
      building,
      days: 5,
      fallbacksA: [null],
      kinds: ["bus-lost"],
    });
    expect(tried?.outcome.lines[0]?.over.longestS).toBe(3600);
  });
  it("looks at the lines that cars draw from, and at the car that adds most to the fullest", () => {
    // 55 A on L1, where no car is; on theirs the building rises to 20 A and 40 A.
    const lines = (day: number, intoA: Float64Array): void => {
      intoA.fill(5);
      if (day === 1) for (let minute = 1140; minute < 1200; minute++) intoA.set([55, 20, 40], 3 * minute);
    };
    const point = (id: string, line: 1 | 2) => ({ id, lines: [line], ratedA: 32 }) as const;
    const [car] = smallSite.cars as readonly [(typeof smallSite.cars)[number]];
    const plan = {
      ...smallSite,
      lineCount: 3,
      points: [point("b", 1), point("c", 2)],
      cars: [car, { ...car, id: "other", point: 1 }],
    } as const;
    const three = { intervalsPerDay: 1440, fill: lines };
    expect(peakOf(three, 3, { lineCount: 3, lines: 0b110 })).toEqual({ day: 1, timeS: 68_400, line: 2 });
    const longest = (kind: (typeof TRIALS)[number]) =>
      faultTrials({
        plan,
        habits: [nightly, nightly],
        building: three,
        days: 3,
        fallbacksA: [6],
        kinds: [kind],
      })[0]?.outcome.lines.map(({ over }) => over.longestS);
    expect(longest("car-ignores-offer")).toEqual([0, 0, 3600]);
    expect(longest("transformer-reversed")).toEqual([0, 0, 3600]);
  });
});

describe("several cars", () => {
  it("are tried all together and the largest alone, and the worse of the two is told", () => {
    const [car] = smallSite.cars as readonly [(typeof smallSite.cars)[number]];
    const plan = {
      ...smallSite,
      points: [
        { id: "large", lines: [0] as const, ratedA: 32 },
        { id: "small", lines: [0] as const, ratedA: 10 },
      ],
      cars: [car, { ...car, id: "second", point: 1 }],
    };
    const [told] = faultTrials({
      plan,
      habits: [nightly, nightly],
      building: buildingWith(28),
      days: 2,
      fallbacksA: [6],
      kinds: ["nothing"],
    });
    // Of 60 − 28 = 32 A each of two gets 16, of which one takes 10: 54 A. The larger alone takes all: 60 A.
    expect(told?.outcome.lines[0]?.mostA).toBe(60);
  });
});
