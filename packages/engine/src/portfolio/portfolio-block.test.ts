import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { RandomStream } from "../chance/index.ts";
import { DAY_MIN, DayCurve, drawHousehold, fillDay, householdSource } from "../demand/index.ts";
import { demand } from "../testing/knowledge.ts";
import { street } from "../testing/street.ts";
import { drawCarHabit, drawCarSession } from "./car-day.ts";
import { charge } from "./charge.ts";
import { portfolioOutcome } from "./outcome.ts";
import type { Portfolio } from "./portfolio.ts";
import { portfolioBlock } from "./portfolio-block.ts";
import { numbersOfHomes } from "./street-day.ts";

const table = demand.appliances;
const whole = (portfolio: Portfolio, seed = 1) =>
  Array.from({ length: portfolio.draws }, (_, draw) =>
    portfolioBlock(portfolio, table, { seed, draw, fromDay: 0, toDay: portfolio.days.count }),
  );
const outcome = (portfolio: Portfolio, seed = 1) => {
  const result = portfolioOutcome(portfolio, whole(portfolio, seed));
  if (result === null) throw new Error("no day was worked out");
  return result;
};

describe("portfolioBlock, put together", () => {
  it("gives the same result for any division of the work, in any order", () => {
    const portfolio = street();
    const once = outcome(portfolio);
    const cut = fc.array(fc.integer({ min: 1, max: portfolio.days.count - 1 }), { maxLength: 4 });
    fc.assert(
      fc.property(
        fc.array(cut, { minLength: 3, maxLength: 3 }),
        fc.infiniteStream(fc.nat()),
        (cuts, order) => {
          const blocks = cuts.flatMap((inside, draw) => {
            const bounds = [...new Set([0, ...inside, portfolio.days.count])].sort((a, b) => a - b);
            return bounds
              .slice(1)
              .map((toDay, index) => ({ seed: 1, draw, fromDay: bounds[index] as number, toDay }));
          });
          const shuffled = blocks
            .map((block) => ({ block, place: order.next().value ?? 0 }))
            .sort((a, b) => a.place - b.place)
            .map(({ block }) => portfolioBlock(portfolio, table, block));
          expect(portfolioOutcome(portfolio, shuffled)).toEqual(once);
        },
      ),
      { numRuns: 8 },
    );
  });
  it("is the sum of its homes and cars, worked out one by one", () => {
    const portfolio = street({ draws: 1, homes: 7 });
    const random = new RandomStream(1);
    const source = householdSource(table, {
      ownedShares: { "electric-shower": portfolio.electricShowerShare },
      heatPumpShare: portfolio.heatPumpShare,
    });
    const feed = { rateW: 32 * 230, voltageV: 230, limitA: null };
    const curve = new DayCurve();
    const minutesJ = new Float64Array(DAY_MIN);
    for (let site = 0; site < 7; site++) {
      for (let day = 360; day < 366; day++) {
        const carJ = new Int32Array(DAY_MIN);
        const habit = drawCarHabit(portfolio.cars, random, site);
        fillDay({ household: drawHousehold(source, random, site), random, day }, curve);
        const session = habit && drawCarSession(portfolio.cars, habit, { random, site, day });
        if (session !== null) charge(session, feed, curve, carJ);
        for (let minute = 0; minute < DAY_MIN; minute++)
          minutesJ[minute] =
            (minutesJ[minute] as number) + (curve.activeJ[minute] as number) + (carJ[minute] as number);
      }
    }
    expect(whole(portfolio)[0]?.energyByMinuteJ).toEqual(minutesJ);
  });
  it("another seed or draw is another street; the same is the same", () => {
    const energies = [outcome(street(), 1), outcome(street(), 2)].flatMap(({ days }) =>
      days.map(({ energyJ }) => energyJ),
    );
    expect(new Set(energies).size).toBe(36);
    expect(outcome(street(), 1)).toEqual(outcome(street(), 1));
  });
  it("adds nothing up from no blocks", () => expect(portfolioOutcome(street(), [])).toBeNull());
});

describe("a street", () => {
  it("looks at 1, 2, 5, 10 and so on homes, and at all of them", () => {
    expect(numbersOfHomes(1)).toEqual([1]);
    expect(numbersOfHomes(12)).toEqual([1, 2, 5, 10, 12]);
    expect(numbersOfHomes(100)).toEqual([1, 2, 5, 10, 20, 50, 100]);
    for (const homes of [1, 2, 3, 12, 100])
      expect(outcome(street({ homes, draws: 1 })).byNumber.map((row) => row.homes)).toEqual(
        numbersOfHomes(homes),
      );
  });
  it("says of each number of homes how many they are", () => {
    const [first] = outcome(street({ homes: 12, draws: 1 })).days;
    expect(first?.byNumber.map(({ homes }) => homes)).toEqual([1, 2, 5, 10, 12]);
  });
  it("peaks lower per home the more homes there are, and its half-hours below its minutes", () => {
    const { byNumber } = outcome(street({ homes: 50, draws: 4 }));
    const [one, fifty] = [byNumber[0], byNumber.at(-1)];
    expect(fifty?.minuteW.high).toBeLessThan(0.5 * (one?.minuteW.middle ?? 0));
    for (const { minuteW, halfHourW } of byNumber) {
      expect(halfHourW.middle).toBeLessThanOrEqual(minuteW.middle);
      expect(minuteW.low).toBeLessThanOrEqual(minuteW.middle);
      expect(minuteW.middle).toBeLessThanOrEqual(minuteW.high);
    }
  });
  it("without cars wants nothing for them", () => {
    expect(outcome(street({}, { share: 0 })).cars).toEqual({
      sessions: 0,
      deliveredShare: null,
      wantedPerSessionWh: null,
    });
  });
  it("delivers all that is wanted when there is time, and less when there is not", () => {
    expect(
      outcome(street({}, { energyMedianKwh: 2, energySpread: 0, tariff: null })).cars.deliveredShare,
    ).toBe(1);
    expect(outcome(street({}, { energyMedianKwh: 150 })).cars.deliveredShare).toBeLessThan(0.7);
  });
  it("holds homes to their limit when cars are managed there, and charges the same buildings", () => {
    const limits = { homeLimitA: 35, homes: 30 };
    const [free, held] = [outcome(street(limits)), outcome(street(limits, { managedAtHome: true }))];
    expect(free.homeOverShare).toBeGreaterThan(free.homeOverByBuildingShare);
    expect(held.homeOverShare).toBe(held.homeOverByBuildingShare);
    expect(held.homeOverByBuildingShare).toBe(free.homeOverByBuildingShare);
    expect(held.cars.sessions).toBe(free.cars.sessions);
    expect(held.energyPerHomeDayWh).toBeLessThanOrEqual(free.energyPerHomeDayWh);
  });
  it("counts minutes above the feeder's limit, and none where there is none", () => {
    const feeder = (limitA: number | null) =>
      outcome(street({ feeder: { lines: 3, voltageV: 230, limitA } }));
    const free = feeder(null);
    expect([free.minutesOver, free.drawsOverShare]).toEqual([null, null]);
    const most = Math.max(...free.days.map(({ lineA }) => lineA));
    expect(feeder(most * 1.0001).drawsOverShare).toBe(0);
    const just = feeder(most * 0.9999);
    expect(just.drawsOverShare).toBeCloseTo(1 / 3, 12);
    expect(just.days.reduce((sum, { minutesOver }) => sum + minutesOver, 0)).toBeGreaterThanOrEqual(1);
    expect(feeder(1).minutesOver?.middle).toBe(6 * DAY_MIN);
  });
  it("spreads over three lines what one line would carry", () => {
    const line = (lines: 1 | 3) =>
      outcome(street({ homes: 60, feeder: { lines, voltageV: 230, limitA: null } }));
    const [one, three] = [line(1), line(3)];
    expect(three.energyPerHomeDayWh).toBe(one.energyPerHomeDayWh);
    expect(three.lineA.middle).toBeGreaterThanOrEqual(one.lineA.middle / 3);
    expect(three.lineA.middle).toBeLessThan(one.lineA.middle);
  });
  it("a cheap rate lifts the night, by the minute", () => {
    const night = ({ meanByMinuteW }: ReturnType<typeof outcome>) => meanByMinuteW[45] as number;
    const all = { share: 1, plugInsPerWeek: 7 };
    const tariff = { startHour: 0.5, lengthH: 5, followedShare: 1 };
    expect(night(outcome(street({}, { ...all, tariff })))).toBeGreaterThan(
      3 * night(outcome(street({}, { ...all, tariff: null }))),
    );
  });
  it("of part of the days says how many there are", () => {
    const portfolio = street();
    const part = portfolioOutcome(portfolio, [
      portfolioBlock(portfolio, table, { seed: 1, draw: 0, fromDay: 0, toDay: 4 }),
      portfolioBlock(portfolio, table, { seed: 1, draw: 2, fromDay: 0, toDay: 1 }),
    ]);
    expect(part).toMatchObject({
      homeDays: 12 * 5,
      homeDaysAsked: 12 * 6 * 3,
      daysPerDraw: { fewest: 1, most: 4, draws: 2 },
    });
  });
});
