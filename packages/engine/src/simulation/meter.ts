/**
 * The meter as its manager sees it: averaged, read now and then, and changed by whatever is wrong with it.
 *
 * @module
 */
import type { SiteState } from "./site-state.ts";

/** Keeps what was carried through a number of equal steps, for the average. */
export function keepForAverage(
  { plan, delays, windowA, buildingA, carsA, constantSince }: SiteState,
  step: number,
  steps: number,
): void {
  const { average } = delays;
  // Once it has held for as long as the meter averages, every slot holds the same already.
  if (average === 1 || step - constantSince >= average) return;
  for (let at = Math.max(step, step + steps - average); at < step + steps; at++) {
    const slot = (at % average) * 6;
    for (let line = 0; line < plan.lineCount; line++) {
      windowA[slot + line] = (buildingA[line] as number) + (carsA[line] as number);
      windowA[slot + 3 + line] = carsA[line] as number;
    }
  }
}

/** The manager asks the meter, and the charge points for their cars, at the end of a step. */
export function readMeter(state: SiteState, step: number): void {
  const { plan, delays, faults, reading, windowA, buildingA, carsA } = state;
  if (faults.isReadingLost) return;
  state.readAtS = step * plan.stepS + faults.clockS;
  for (let line = 0; line < plan.lineCount; line++) {
    let total = (buildingA[line] as number) + (carsA[line] as number);
    let cars = carsA[line] as number;
    if (delays.average > 1) {
      total = 0;
      cars = 0;
      for (let slot = line; slot < windowA.length; slot += 6) {
        total += windowA[slot] as number;
        cars += windowA[slot + 3] as number;
      }
      total /= delays.average;
      cars /= delays.average;
    }
    if (!faults.isFrozen) reading.totalA[line] = total * (faults.multiple[line] as number);
    reading.carsA[line] = cars;
  }
}
