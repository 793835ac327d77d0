import { describe, expect, it } from "vitest";
import { buildingWith, nightly, smallSite } from "../testing/small-site.ts";
import { missingOf } from "./outcome.ts";
import { finished, running, simulate } from "./simulate.ts";

const calm = buildingWith(10);
const run = (changes: Partial<Parameters<typeof simulate>[0]> = {}) =>
  simulate({ plan: smallSite, habits: [nightly], building: calm, days: 3, seed: 1, ...changes });

describe("simulate", () => {
  it("charges for an hour a night where there is room for all", () => {
    const { sessions, deliveredKwh, missingKwh, fullShare, chargingH, throttledH, starts, lines } = run();
    expect(sessions).toHaveLength(3);
    // Three times 32 A · 230 V · 1 h; the last step may go over by as much as one step holds.
    expect(deliveredKwh).toBeGreaterThanOrEqual(3 * 7.36 - 1e-9);
    expect(deliveredKwh).toBeLessThan(3 * (7.36 + (32 * 230) / 3.6e6) + 1e-9);
    expect({ missingKwh, fullShare, throttledH, starts }).toEqual({
      missingKwh: 0,
      fullShare: 1,
      throttledH: 0,
      starts: 3,
    });
    expect(chargingH).toBeCloseTo(3, 2);
    expect(lines).toMatchObject([
      { over: { count: 0, totalS: 0 }, mostA: 42, fuse: { fast: 0, minute: null } },
    ]);
  });

  it("turns the car down to what the building leaves, and says how long", () => {
    const outcome = run({ building: buildingWith(40), days: 1 });
    expect(outcome.lines[0]?.mostA).toBe(60);
    // At 20 A the hour at 32 A becomes 1.6 h, all of it turned down.
    expect(outcome.throttledH).toBeCloseTo(1.6, 2);
  });

  it("pauses the car under the least offer, and tells a night that was not enough", () => {
    const leaving = { ...nightly, leavesS: 23 * 3600 };
    const building = buildingWith(10, { fromH: 18.5, untilH: 24, currentA: 55 });
    const outcome = run({ building, habits: [leaving], days: 1 });
    // Half an hour before the building takes the room, nothing afterwards until the car leaves at eleven.
    expect(outcome.deliveredKwh).toBeCloseTo(3.68, 2);
    expect(outcome.pausedH).toBeCloseTo(4.5, 2);
    expect(outcome.fullShare).toBe(0);
    expect(outcome.missingKwh).toBeCloseTo(3.68, 2);
    expect(outcome.sessions.map(missingOf)).toEqual([outcome.missingKwh]);
  });

  it("counts no session that the last day cut short, and says how many there were", () => {
    const building = buildingWith(10, { fromH: 18.5, untilH: 24, currentA: 55 });
    // Full at half past seven of the first night, after the room came back at midnight; the second is cut.
    expect(run({ building, days: 1 })).toMatchObject({ sessions: [], cutShort: 1, fullShare: null });
    expect(run({ building, days: 2 })).toMatchObject({ cutShort: 1, fullShare: 1, missingKwh: 0 });
    expect(run({ building: buildingWith(10), days: 1 })).toMatchObject({ cutShort: 0, fullShare: 1 });
  });

  it("counts a session that ends with the last day itself", () => {
    const untilMidnight = { ...nightly, leavesS: 24 * 3600 };
    const outcome = run({ building: buildingWith(55), habits: [untilMidnight], days: 1 });
    expect(outcome).toMatchObject({ sessions: [{ isFull: false }], cutShort: 0, fullShare: 0 });
  });

  it("keeps what the building alone is over apart from what the car adds", () => {
    const outcome = run({ building: buildingWith(10, { fromH: 18.5, untilH: 19, currentA: 70 }), days: 1 });
    const [line] = outcome.lines;
    expect(line?.over).toEqual({ count: 1, totalS: 1800, longestS: 1800, aloneS: 1800, carS: 1 });
    // The car is still there for the step in which the building rises; heard one step later.
    expect(line?.mostA).toBe(102);
    expect(outcome.excursions).toEqual([
      { line: 0, startS: 18.5 * 3600, lengthS: 1800, aloneS: 1800, carS: 1 },
    ]);
  });

  it("tells the first moment at which the fuse may be gone, not the one at which most of it would have been used", () => {
    // 130 A uses up the fast edge of the invented fuse within a minute, at three and again, for longer, at four.
    const strong = buildingWith(
      10,
      { fromH: 3, untilH: 3 + 2 / 60, currentA: 130 },
      { fromH: 4, untilH: 4.5, currentA: 130 },
    );
    expect(run({ building: strong, days: 1 }).lines[0]?.fuse?.minute).toBe(180);
  });

  it("uses the fuse's life by the curve and takes it back", () => {
    // 100 A on the fast edge: 3600 · (10/3600)^(ln(100/75)/ln(150/75)) s, by hand 312.7 s, of which a minute.
    const edgeS = 3600 * (10 / 3600) ** (Math.log(100 / 75) / Math.log(2));
    const outcome = run({
      building: buildingWith(10, { fromH: 2, untilH: 2 + 1 / 60, currentA: 100 }),
      habits: [],
      days: 1,
    });
    expect(outcome.lines[0]?.fuse?.fast).toBeCloseTo(60 / edgeS, 9);
    expect(outcome.lines[0]?.fuse?.minute).toBe(120);
    const later = run({
      building: buildingWith(10, { fromH: 2, untilH: 2 + 1 / 60, currentA: 100 }),
      habits: [],
      days: 2,
    });
    expect(later.dayRecords[1]?.fast[0]).toBeCloseTo(60 / edgeS, 9);
  });

  it("uses the fuse's life from its first gate on, and by what flows back as by what is taken", () => {
    const lifeOf = (currentA: number) =>
      run({
        building: buildingWith(10, { fromH: 2, untilH: 2 + 1 / 60, currentA }),
        habits: [],
        days: 1,
      }).lines[0]?.fuse;
    // The gate is 75 A, and an hour there.
    expect(lifeOf(75)?.fast).toBeCloseTo(60 / 3600, 12);
    expect(lifeOf(74.9)).toEqual({ fast: 0, slow: 0, minute: null });
    expect(lifeOf(-100)).toEqual(lifeOf(100));
  });

  it("tells the highest current of each day by itself", () => {
    const falling = {
      intervalsPerDay: 1440,
      fill: (day: number, intoA: Float64Array) => void intoA.fill(50 - 20 * day),
    };
    const { dayRecords, lines } = run({ building: falling, habits: [], days: 2 });
    expect(dayRecords.map(({ mostA, peakA }) => [mostA[0], peakA[0]])).toEqual([
      [50, 50],
      [30, 30],
    ]);
    expect(lines[0]?.mostA).toBe(50);
  });

  it("warms the tails towards 30 °C + 40 K · (I/Iz)²", () => {
    const outcome = run({ building: buildingWith(87), habits: [], days: 1 });
    expect(outcome.bodies[0]?.mostC).toBeCloseTo(70, 6);
    expect(outcome.bodies[0]?.mostC).toBeLessThanOrEqual(70);
  });

  it("warms the tails of each line by its own current, each body by its own rating, and says when it was warmest", () => {
    const [tails] = smallSite.bodies as readonly [(typeof smallSite.bodies)[number]];
    const plan = {
      ...smallSite,
      lineCount: 3 as const,
      bodies: [tails, { ...tails, id: "wide", ratedA: 174 }],
    };
    const building = {
      intervalsPerDay: 1440,
      // L2 carries 87 A for ten minutes from two o'clock, L3 half of that from six.
      fill: (_day: number, intoA: Float64Array) => {
        intoA.fill(0);
        for (let minute = 0; minute < 10; minute++) {
          intoA[3 * (120 + minute) + 1] = 87;
          intoA[3 * (360 + minute) + 2] = 43.5;
        }
      },
    };
    const { bodies } = run({ plan, habits: [], building, days: 1 });
    const way = 1 - Math.exp(-600 / tails.tauS);
    expect(bodies.map(({ id, line, minute }) => [id, line, minute])).toEqual([
      ["tails", 0, 0],
      ["tails", 1, 129],
      ["tails", 2, 369],
      ["wide", 0, 0],
      ["wide", 1, 129],
      ["wide", 2, 369],
    ]);
    // 40 K at the rated current, a quarter at half of it. Closed forms minute by minute: a few units in the last place.
    const rises = [0, 40, 10, 0, 10, 2.5];
    for (const [at, { mostC }] of bodies.entries())
      expect(mostC).toBeCloseTo(30 + (rises[at] as number) * way, 9);
  });

  it("carries the fuse's life in use over midnight into the next day's record", () => {
    const byDay = {
      intervalsPerDay: 1440,
      fill: (day: number, intoA: Float64Array) => {
        intoA.fill(10);
        if (day === 0) intoA.fill(100, 1439);
      },
    };
    const [first, second] = run({ habits: [], building: byDay, days: 2 }).dayRecords;
    expect(first?.fast[0]).toBeGreaterThan(0);
    expect(first?.slow[0]).toBeGreaterThan(0);
    expect([second?.fast, second?.slow]).toEqual([first?.fast, first?.slow]);
  });

  it("holds what was there before a gap, and says for how long", () => {
    const gap = {
      intervalsPerDay: 1440,
      fill: (day: number, intoA: Float64Array) => {
        buildingWith(10).fill(day, intoA);
        intoA.fill(Number.NaN, 600, 660);
      },
    };
    const outcome = run({ building: gap, habits: [], days: 2 });
    expect(outcome.absentH).toBe(2);
    expect(outcome.lines[0]?.mostA).toBe(10);
  });

  it("gives the same whatever the intervals that the same current is written in", () => {
    const spans = [
      { fromH: 18.25, untilH: 18.5, currentA: 45 },
      { fromH: 19, untilH: 19.5, currentA: 57 },
    ] as const;
    const byMinute = buildingWith(12, ...spans);
    const bySecond = {
      intervalsPerDay: 86_400,
      fill: (_day: number, intoA: Float64Array) => {
        intoA.fill(12);
        for (const { fromH, untilH, currentA } of spans) intoA.fill(currentA, fromH * 3600, untilH * 3600);
      },
    };
    const [coarse, fine] = [run({ building: byMinute }), run({ building: bySecond })];
    expect(fine.lines.map(({ over, mostA }) => ({ over, mostA }))).toEqual(
      coarse.lines.map(({ over, mostA }) => ({ over, mostA })),
    );
    // Exponentials of a whole span and of its steps one by one: a few units in the last place.
    expect(fine.lines[0]?.fuse?.fast).toBeCloseTo(coarse.lines[0]?.fuse?.fast ?? Number.NaN, 12);
    expect(fine.bodies[0]?.mostC).toBeCloseTo(coarse.bodies[0]?.mostC ?? Number.NaN, 9);
    expect(fine.sessions.map(({ deliveredKwh }) => deliveredKwh)).toEqual(
      // Sums of a night's steps in other groups: a few units in the last place.
      coarse.sessions.map(({ deliveredKwh }) => expect.closeTo(deliveredKwh, 9)),
    );
    expect([fine.throttledH, fine.pausedH, fine.starts]).toEqual([
      coarse.throttledH,
      coarse.pausedH,
      coarse.starts,
    ]);
  });

  it("draws the same days for the same seed, and others for another", () => {
    const spread = { ...nightly, chargesPerWeek: 3, arrivesSpreadS: 3600, energySpread: 0.5 };
    const of = (seed: number) => run({ habits: [spread], days: 20, seed }).sessions;
    expect(of(5)).toEqual(of(5));
    expect(of(5)).not.toEqual(of(6));
  });

  it("counts the finished days when it is stopped", () => {
    const started = running({ plans: [smallSite], habits: [nightly], building: calm, days: 10, seed: 1 });
    expect([started.next().value, started.next().value]).toEqual([1, 2]);
    const stopped = started.next(false);
    expect(stopped.done).toBe(true);
    expect((stopped.value as ReturnType<typeof simulate>[])[0]?.days).toBe(2);
    expect(
      finished(running({ plans: [smallSite], habits: [], building: calm, days: 4, seed: 1 }))[0]?.days,
    ).toBe(4);
  });

  it("refuses a step that does not divide a minute, and a day that does not divide into steps", () => {
    expect(() => run({ plan: { ...smallSite, stepS: 0.7 } })).toThrow(/stepS is 0.7/);
    expect(() => run({ building: { ...calm, intervalsPerDay: 1000 } })).toThrow(/1000 intervals/);
    expect(() =>
      run({ plan: { ...smallSite, control: { ...smallSite.control, limitA: Number.NaN } } }),
    ).toThrow(/limitA is NaN/);
  });
});
