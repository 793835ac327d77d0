import { DAY_MIN, type DayCurve } from "../demand/index.ts";
import { LEAST_PILOT_A } from "../limiter/index.ts";
import type { CarSession } from "./car-day.ts";

/** How a car is fed: its own rate, and the limit it is held to with the building, if any. */
export interface Feed {
  /** Power of the car at its rate. [W, whole] */
  readonly rateW: number;
  readonly voltageV: number;
  /** Current of building and car together that the car is held to; null for a car nobody manages. [A] */
  readonly limitA: number | null;
}

/**
 * Lets a car charge through its session and adds its energy to each minute.
 *
 *     unmanaged:  rate
 *     managed:    min(rate, limit − building), and nothing below 6 A
 *
 * The manager sees the mean of the same minute: its own delay, seconds long, does not show at one minute.
 * Building and car are added as currents, the car at a power factor of 1.
 *
 * @param building The home's day without the car, closed.
 * @param carJ Energy of the car in each minute, 1440 places; added to. [J]
 * @returns Energy delivered. [J, whole]
 */
export function charge(session: CarSession, feed: Feed, building: DayCurve, carJ: Int32Array): number {
  let leftJ = session.wantedJ;
  let leftS = session.lengthS;
  let minute = Math.floor(session.startS / 60);
  let secondsS = 60 - (session.startS % 60);
  while (leftJ > 0 && leftS > 0) {
    const lastS = Math.min(secondsS, leftS);
    const energyJ = Math.min(leftJ, allowedW(feed, building, minute) * lastS);
    carJ[minute] = (carJ[minute] as number) + energyJ;
    leftJ -= energyJ;
    leftS -= lastS;
    secondsS = 60;
    minute = minute + 1 === DAY_MIN ? 0 : minute + 1;
  }
  return session.wantedJ - leftJ;
}

/** Power the car may take in a minute. [W, whole] */
function allowedW({ rateW, voltageV, limitA }: Feed, building: DayCurve, minute: number): number {
  if (limitA === null) return rateW;
  const active = building.activeJ[minute] as number;
  const reactive = building.reactiveVarS[minute] as number;
  const buildingA = Math.sqrt(active * active + reactive * reactive) / 60 / voltageV;
  const roomA = limitA - buildingA;
  return roomA < LEAST_PILOT_A ? 0 : Math.min(rateW, Math.floor(roomA * voltageV));
}
