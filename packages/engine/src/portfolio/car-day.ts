import { drawLognormal, drawNormal, type RandomStream } from "../chance/index.ts";
import { DAY_S } from "../demand/index.ts";
import type { Portfolio } from "./portfolio.ts";

const HOUR_S = 3600;
const JOULES_PER_KWH = 3_600_000;

/** What a home's car does on every day; null where there is none. */
export interface CarHabit {
  readonly followsTariff: boolean;
}

/** One plug-in. The day is a circle: what runs past midnight comes back in at its beginning. */
export interface CarSession {
  /** When charging may begin: after arrival, the tariff and the random delay. [s from midnight, whole, below a day] */
  readonly startS: number;
  /** From then until the car leaves. [s, whole] */
  readonly lengthS: number;
  /** Energy wanted. [J, whole] */
  readonly wantedJ: number;
}

/** Whether a home has a car, and whether it waits for the cheap rate. The same for every day. */
export function drawCarHabit(cars: Portfolio["cars"], random: RandomStream, site: number): CarHabit | null {
  random.start("car-habit", { site, day: 0 });
  const hasCar = random.uniform() < cars.share;
  const followsTariff = random.uniform() < (cars.tariff?.followedShare ?? 0);
  return hasCar ? { followsTariff } : null;
}

/** The plug-in of a car on a day; null on a day without one. */
export function drawCarSession(
  cars: Portfolio["cars"],
  habit: CarHabit,
  { random, site, day }: { readonly random: RandomStream; readonly site: number; readonly day: number },
): CarSession | null {
  random.start("car-day", { site, day });
  if (random.uniform() >= cars.plugInsPerWeek / 7) return null;
  const arrivalS = circled(
    Math.floor(HOUR_S * (cars.arrivalHour + cars.arrivalSpreadH * drawNormal(random))),
  );
  const wantedKwh = drawLognormal(random, { median: cars.energyMedianKwh, sigma: cars.energySpread });
  const delayS = Math.floor(random.uniform() * (cars.randomDelayS + 1));
  const pluggedInS = Math.round(HOUR_S * cars.pluggedInH);
  const waitS = Math.min(
    pluggedInS,
    (habit.followsTariff ? waitForTariffS(cars, arrivalS, pluggedInS) : 0) + delayS,
  );
  return {
    startS: circled(arrivalS + waitS),
    lengthS: pluggedInS - waitS,
    wantedJ: Math.round(wantedKwh * JOULES_PER_KWH),
  };
}

/** Time until the cheap hours begin: none within them, and none where the car leaves before. */
function waitForTariffS({ tariff }: Portfolio["cars"], arrivalS: number, pluggedInS: number): number {
  if (tariff === null) return 0;
  const sinceS = circled(arrivalS - Math.round(HOUR_S * tariff.startHour));
  if (sinceS < HOUR_S * tariff.lengthH) return 0;
  const untilS = DAY_S - sinceS;
  return untilS < pluggedInS ? untilS : 0;
}

const circled = (seconds: number): number => ((seconds % DAY_S) + DAY_S) % DAY_S;
