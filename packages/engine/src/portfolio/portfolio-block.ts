/**
 * Days of a drawn street: its homes, their cars and the feeder they share, minute by minute.
 *
 * @module
 */
import { RandomStream } from "../chance/index.ts";
import {
  type ApplianceTable,
  DAY_MIN,
  DayCurve,
  drawHousehold,
  fillDay,
  type Household,
  householdSource,
} from "../demand/index.ts";
import { type CarHabit, drawCarHabit, drawCarSession } from "./car-day.ts";
import { charge, type Feed } from "./charge.ts";
import { Feeder } from "./feeder.ts";
import type { Portfolio } from "./portfolio.ts";
import { type NumberOfHomes, numbersOfHomes, type StreetDay } from "./street-day.ts";

/** A run of days of one drawn street. Blocks of any division, merged, give the same result. */
export interface PortfolioBlock {
  readonly days: readonly StreetDay[];
  /** Energy of all homes in each minute of the day, summed over the days. [J, whole] */
  readonly energyByMinuteJ: Float64Array;
  /** The highest of the days in each minute. [J, whole] */
  readonly highestByMinuteJ: Float64Array;
}

/** Which days of which street: from one day of the season up to, not with, another. */
export interface BlockAsked {
  readonly seed: number;
  readonly draw: number;
  readonly fromDay: number;
  readonly toDay: number;
}

interface Home {
  readonly household: Household;
  readonly car: CarHabit | null;
}

/**
 * Works out some days of one drawn street. The same portfolio, seed, draw and day give the same numbers,
 * whatever else is asked, in whatever order, on whatever thread.
 */
export function portfolioBlock(
  portfolio: Portfolio,
  table: ApplianceTable,
  { seed, draw, fromDay, toDay }: BlockAsked,
): PortfolioBlock {
  const street = new Street(portfolio, table, new RandomStream(seed), draw);
  const energyByMinuteJ = new Float64Array(DAY_MIN);
  const highestByMinuteJ = new Float64Array(DAY_MIN);
  const days: StreetDay[] = [];
  for (let dayIndex = fromDay; dayIndex < toDay; dayIndex++) {
    days.push(street.day(dayIndex));
    for (let minute = 0; minute < DAY_MIN; minute++) {
      const energyJ = street.feeder.energyJ(minute);
      energyByMinuteJ[minute] = (energyByMinuteJ[minute] as number) + energyJ;
      highestByMinuteJ[minute] = Math.max(highestByMinuteJ[minute] as number, energyJ);
    }
  }
  return { days, energyByMinuteJ, highestByMinuteJ };
}

/** One drawn street, and room to work out one day of it at a time. */
class Street {
  readonly feeder: Feeder;
  readonly #portfolio: Portfolio;
  readonly #random: RandomStream;
  readonly #draw: number;
  readonly #homes: readonly Home[];
  readonly #numbers: ReadonlySet<number>;
  readonly #feed: Feed;
  readonly #curve = new DayCurve();
  readonly #carJ = new Int32Array(DAY_MIN);

  constructor(portfolio: Portfolio, table: ApplianceTable, random: RandomStream, draw: number) {
    const { homes, cars, feeder, homeLimitA } = portfolio;
    this.#portfolio = portfolio;
    this.#random = random;
    this.#draw = draw;
    const source = householdSource(table, {
      ownedShares: { ...portfolio.ownedShares, "electric-shower": portfolio.electricShowerShare },
      heatPumpShare: portfolio.heatPumpShare,
    });
    this.#homes = Array.from({ length: homes }, (_, index) => {
      const site = draw * homes + index;
      const car = drawCarHabit(cars, random, site);
      return { household: drawHousehold(source, random, site), car };
    });
    this.#numbers = new Set(numbersOfHomes(homes));
    this.#feed = {
      rateW: Math.round(cars.rateA * feeder.voltageV),
      voltageV: feeder.voltageV,
      limitA: cars.managedAtHome ? homeLimitA : null,
    };
    this.feeder = new Feeder(feeder.lines);
  }

  day(dayIndex: number): StreetDay {
    const { cars, days, feeder, homeLimitA } = this.#portfolio;
    const day = days.first + dayIndex;
    const limitVa = homeLimitA * feeder.voltageV;
    const byNumber: NumberOfHomes[] = [];
    let [carSessions, carWantedJ, carDeliveredJ] = [0, 0, 0];
    let [homeMinutesOver, homeMinutesOverByBuilding] = [0, 0];
    this.feeder.clear();
    this.#homes.forEach(({ household, car }, index) => {
      const [random, curve, carJ] = [this.#random, this.#curve, this.#carJ];
      fillDay({ household, random, day, weather: this.#draw }, curve);
      const session = car === null ? null : drawCarSession(cars, car, { random, site: household.site, day });
      if (session !== null) {
        carSessions++;
        carWantedJ += session.wantedJ;
        carDeliveredJ += charge(session, this.#feed, curve, carJ);
      }
      const minutesOver = this.feeder.add(index, curve, carJ, limitVa);
      if (session !== null) carJ.fill(0);
      if (minutesOver > 0) {
        homeMinutesOver += minutesOver;
        homeMinutesOverByBuilding += minutesAbove(curve, limitVa);
      }
      if (this.#numbers.has(index + 1)) byNumber.push(this.feeder.peak(index + 1));
    });
    let energyJ = 0;
    for (let minute = 0; minute < DAY_MIN; minute++) energyJ += this.feeder.energyJ(minute);
    return {
      draw: this.#draw,
      dayIndex,
      byNumber,
      ...this.feeder.fullestLine(feeder.voltageV, feeder.limitA),
      energyJ,
      carSessions,
      carWantedJ,
      carDeliveredJ,
      homeMinutesOver,
      homeMinutesOverByBuilding,
    };
  }
}

function minutesAbove({ activeJ, reactiveVarS }: DayCurve, limitVa: number): number {
  let count = 0;
  for (let minute = 0; minute < DAY_MIN; minute++) {
    const [active, reactive] = [activeJ[minute] as number, reactiveVarS[minute] as number];
    if (active * active + reactive * reactive > (limitVa * 60) ** 2) count++;
  }
  return count;
}
