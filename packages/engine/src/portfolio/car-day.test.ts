import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { RandomStream } from "../chance/index.ts";
import { street } from "../testing/street.ts";
import { type CarSession, drawCarHabit, drawCarSession } from "./car-day.ts";

const HOUR_S = 3600;
const DAY_S = 86_400;
const random = new RandomStream(6);
const sessions = (
  cars: Parameters<typeof street>[1],
  count: number,
  followsTariff = false,
): readonly (CarSession | null)[] => {
  const plan = street({}, cars).cars;
  return Array.from({ length: count }, (_, day) =>
    drawCarSession(plan, { followsTariff }, { random, site: 3, day }),
  );
};
const present = (all: readonly (CarSession | null)[]) => all.filter((session) => session !== null);
const COUNT = 4000;

describe("drawCarHabit", () => {
  const habits = (share: number) =>
    Array.from({ length: COUNT }, (_, site) => drawCarHabit(street({}, { share }).cars, random, site));
  it("gives as many homes a car, and lets as many wait, as the shares say", () => {
    const owners = habits(0.6).filter((habit) => habit !== null);
    // Four standard errors of a share.
    expect(Math.abs(owners.length / COUNT - 0.6)).toBeLessThan(4 * Math.sqrt(0.24 / COUNT));
    const waiting = owners.filter(({ followsTariff }) => followsTariff).length / owners.length;
    expect(Math.abs(waiting - 0.5)).toBeLessThan(4 * Math.sqrt(0.25 / owners.length));
  });
  it("keeps every car there is when the share grows", () => {
    const [few, many] = [habits(0.2), habits(0.7)];
    few.forEach((habit, site) => {
      if (habit !== null) expect(many[site]).toEqual(habit);
    });
  });
});

describe("drawCarSession", () => {
  it("plugs in as often as said", () => {
    const share = present(sessions({ plugInsPerWeek: 3 }, COUNT)).length / COUNT;
    expect(Math.abs(share - 3 / 7)).toBeLessThan(4 * Math.sqrt(((3 / 7) * (4 / 7)) / COUNT));
    expect(present(sessions({ plugInsPerWeek: 7 }, 200))).toHaveLength(200);
    expect(present(sessions({ plugInsPerWeek: 0 }, 200))).toEqual([]);
  });
  it("wants the median energy half of the time", () => {
    const wanted = present(sessions({ plugInsPerWeek: 7 }, COUNT)).map(({ wantedJ }) => wantedJ / 3.6e6);
    const below = wanted.filter((kwh) => kwh < 12).length / COUNT;
    expect(Math.abs(below - 0.5)).toBeLessThan(4 * Math.sqrt(0.25 / COUNT));
  });
  it("starts on arrival where nothing is to wait for", () => {
    const all = present(sessions({ plugInsPerWeek: 7, tariff: null, randomDelayS: 0 }, COUNT));
    // A standard deviation of two hours: the mean of 4000 is known to eight minutes at four standard errors.
    const mean = all.reduce((sum, { startS }) => sum + startS / HOUR_S, 0) / COUNT;
    expect(Math.abs(mean - 18)).toBeLessThan(8 / 60);
    expect(all.every(({ lengthS }) => lengthS === 12 * HOUR_S)).toBe(true);
  });
  it("puts a start off by up to the delay, evenly, and leaves no later for it", () => {
    const delay = (seconds: number) =>
      present(sessions({ plugInsPerWeek: 7, tariff: null, randomDelayS: seconds }, COUNT));
    const [without, put] = [delay(0), delay(600)];
    const delays = put.map(({ startS }, day) => (startS - (without[day]?.startS ?? 0) + DAY_S) % DAY_S);
    expect(Math.min(...delays)).toBeGreaterThanOrEqual(0);
    expect(Math.max(...delays)).toBeLessThanOrEqual(600);
    const mean = delays.reduce((sum, value) => sum + value, 0) / COUNT;
    expect(Math.abs(mean - 300)).toBeLessThan((4 * 600) / Math.sqrt(12 * COUNT));
    put.forEach(({ lengthS }, day) => {
      expect(lengthS).toBe(12 * HOUR_S - (delays[day] as number));
    });
  });
  it("counts the whole delay in: of one second, none or one", () => {
    const starts = (randomDelayS: number) =>
      present(sessions({ plugInsPerWeek: 7, tariff: null, randomDelayS }, 200)).map(({ lengthS }) => lengthS);
    expect(new Set(starts(1))).toEqual(new Set([12 * HOUR_S, 12 * HOUR_S - 1]));
  });
  it("waits for the cheap hours, starts at once within them, and does not wait past leaving", () => {
    const start = (arrivalHour: number, pluggedInH: number) =>
      present(
        sessions({ plugInsPerWeek: 7, arrivalHour, arrivalSpreadH: 0, randomDelayS: 0, pluggedInH }, 1, true),
      ).map(({ startS, lengthS }) => [startS / HOUR_S, lengthS / HOUR_S])[0];
    expect(start(18, 12)).toEqual([0.5, 5.5]);
    expect(start(0.5, 12)).toEqual([0.5, 12]);
    expect(start(2, 12)).toEqual([2, 12]);
    expect(start(5.5, 20)).toEqual([0.5, 1]);
    expect(start(5.25, 20)).toEqual([5.25, 20]);
    expect(start(12, 12)).toEqual([12, 12]);
  });
});

describe("cars that come at any hour", () => {
  const { cars: published }: { readonly cars: readonly Binomial[] } = JSON.parse(
    readFileSync(new URL("../../../../reference/demand/demand.json", import.meta.url), "utf8"),
  );
  interface Binomial {
    readonly cars: number;
    readonly chargingShare: number;
    readonly rateKw: number;
    readonly charging95: number;
    readonly belowShare: number;
    readonly upToShare: number;
  }
  // 7.2 kW for 4.2 hours, once a day at any hour: 17.5 % charge at any moment. An hour with a spread of a day is
  // any hour, to one part in 10^8.
  const plan = street(
    {},
    {
      plugInsPerWeek: 7,
      energyMedianKwh: 7.2 * 4.2,
      energySpread: 0,
      arrivalSpreadH: 24,
      tariff: null,
      randomDelayS: 0,
    },
  ).cars;
  const chargingAt = (site: number, day: number, atS: number): boolean => {
    const session = drawCarSession(plan, { followsTariff: false }, { random, site, day });
    if (session === null) return false;
    return (atS - session.startS + DAY_S) % DAY_S < session.wantedJ / 7200;
  };

  it.each([
    [5, 2.9],
    [10, 2.9],
    [50, 1.87],
    [100, 1.73],
  ])("exact: of %d cars at 7.2 kW the 95 %% point is %d kW each", (count, kwPerCar) => {
    const exact = published.find(({ cars }) => cars === count) as Binomial;
    expect(Math.abs((exact.charging95 * exact.rateKw) / count - kwPerCar)).toBeLessThanOrEqual(
      kwPerCar > 2 ? 0.05 : 0.005,
    );
  });
  it.each(published.filter(({ cars }) => cars <= 100))(
    "drawn: $cars cars charge together as the binomial law says",
    (exact) => {
      const days = 2000;
      let [below, upTo] = [0, 0];
      for (let day = 0; day < days; day++) {
        let charging = 0;
        for (let site = 0; site < exact.cars; site++) charging += Number(chargingAt(site, day, 18 * HOUR_S));
        if (charging < exact.charging95) below++;
        if (charging <= exact.charging95) upTo++;
      }
      // Four standard errors of a share over 2000 independent days: with both shares right the drawn 95 % point can
      // only be the exact one, wherever 95 % lies clear of them.
      const slack = (share: number) => 4 * Math.sqrt((share * (1 - share)) / days) + 1e-12;
      expect(Math.abs(below / days - exact.belowShare)).toBeLessThanOrEqual(slack(exact.belowShare));
      expect(Math.abs(upTo / days - exact.upToShare)).toBeLessThanOrEqual(slack(exact.upToShare));
    },
  );
  it("but waiting for one cheap rate together, far more charge at once", () => {
    const waiting = street(
      {},
      { plugInsPerWeek: 3.5, energyMedianKwh: 7.2 * 4.2, energySpread: 0, randomDelayS: 600 },
    ).cars;
    const days = 200;
    let charging = 0;
    for (let day = 0; day < days; day++) {
      for (let site = 0; site < 50; site++) {
        const session = drawCarSession(waiting, { followsTariff: true }, { random, site, day });
        // Twenty minutes after the cheap hours begin: every delay is over.
        if (
          session !== null &&
          (0.5 * HOUR_S + 1200 - session.startS + DAY_S) % DAY_S < session.wantedJ / 7200
        )
          charging++;
      }
    }
    // Half of the cars are plugged in, and all of those charge; four standard errors of 10,000, and one part in a
    // hundred for the few that came after midnight or were full before.
    expect(charging / days / 50).toBeGreaterThan(0.5 - 0.02 - 0.01);
  });
});
