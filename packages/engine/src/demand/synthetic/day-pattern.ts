import type { HoursOfDay } from "./appliances.ts";

const PARTS = 256;

/** A pattern of hours made ready for drawing: the second of the day that each share of the uses lies before. */
export interface DayPattern {
  readonly weekdayS: Float64Array;
  readonly weekendS: Float64Array;
  /** Uses on such a day, of those on a mean day. */
  readonly weekdayUse: number;
  readonly weekendUse: number;
}

/** Prepares a pattern. Within an hour every second is as likely as the next. */
export const dayPattern = (hours: HoursOfDay): DayPattern => ({
  weekdayS: quantilesS(hours.weekday),
  weekendS: quantilesS(hours.weekend),
  weekdayUse: (7 - 2 * hours.weekendUse) / 5,
  weekendUse: hours.weekendUse,
});

/** Second of the day for a uniform number between 0 and 1. 0 to just below 86 400, not whole */
export function secondOfDay(quantilesS: Float64Array, uniform: number): number {
  const place = uniform * PARTS;
  const part = place | 0;
  const from = quantilesS[part] as number;
  return from + (place - part) * ((quantilesS[part + 1] as number) - from);
}

function quantilesS(weights: readonly number[]): Float64Array {
  const whole = weights.reduce((sum, weight) => sum + weight, 0);
  const quantiles = new Float64Array(PARTS + 1);
  let [hour, before] = [0, 0];
  for (let part = 0; part <= PARTS; part++) {
    const wanted = (part / PARTS) * whole;
    while (hour < weights.length - 1 && before + (weights[hour] as number) < wanted)
      before += weights[hour++] as number;
    const weight = weights[hour] as number;
    quantiles[part] = 3600 * (hour + (weight === 0 ? 0 : Math.min(1, (wanted - before) / weight)));
  }
  return quantiles;
}
