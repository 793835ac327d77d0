/** Which way the values of a channel move, from each that is present to the next. */
export interface Movement {
  readonly riseCount: number;
  readonly fallCount: number;
  /** The first fall; null where the values never fall. */
  readonly firstFall: { readonly slot: number; readonly before: number; readonly after: number } | null;
  /** True where every fall is to near zero and at one time of the day: a counter that starts anew each day. */
  readonly isDaily: boolean;
}

const DAY_S = 86_400;
/** A day by the clock has 23 hours at least. [s] */
const MIN_APART_S = 23 * 3600;
/** A counter that starts anew holds less than this share of what it held, however late its first reading is. */
const NEAR_ZERO_RATIO = 0.2;
/** Different times of day at which a daily counter may start anew: clocks that change make two of one. */
const MAX_TIMES = 2;

/** @param stepS Length of an interval. [s] */
export function movementOf(values: Float64Array, stepS: number): Movement {
  let [riseCount, fallCount, last, lastFall, isStart] = [0, 0, Number.NaN, Number.NaN, true];
  let firstFall: Movement["firstFall"] = null;
  const times = new Set<number>();
  for (let slot = 0; slot < values.length; slot++) {
    const value = values[slot] as number;
    if (Number.isNaN(value)) continue;
    if (value > last) riseCount++;
    else if (value < last) {
      if (fallCount++ === 0) firstFall = { slot, before: last, after: value };
      else if ((slot - lastFall) * stepS < MIN_APART_S) isStart = false;
      lastFall = slot;
      if (value > NEAR_ZERO_RATIO * last) isStart = false;
      if (times.size <= MAX_TIMES) times.add((slot * stepS) % DAY_S);
    }
    last = value;
  }
  const isDaily = fallCount > 1 && isStart && times.size <= MAX_TIMES && riseCount >= 2 * fallCount;
  return { riseCount, fallCount, firstFall, isDaily };
}
