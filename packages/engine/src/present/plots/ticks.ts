/**
 * Round values for the marks of an axis.
 *
 * Steps are 1, 2 or 5 times a power of ten. Ticks reach from at or below the smallest value to at or above
 * the largest (but for the rounding of a number's last digit), so an axis that ends at its ticks holds all data. Zero is a tick wherever the range holds it.
 *
 * @module
 */
import { requireInRange } from "../../quantities/index.ts";
import { numberText } from "./number-text.ts";

export interface Tick {
  readonly value: number;
  readonly text: string;
}

const DIGITS = [1, 2, 5] as const;
const LEAST = 1e-9;

/**
 * Ticks of a linear axis, ascending and evenly spaced. Where all values are equal the axis is given room above.
 *
 * @param range.min Smallest value, -1e12 to 1e12.
 * @param range.max Largest value, not below `min`.
 * @param range.maxCount Most ticks wanted, 3 to 100.
 * @param range.minStep Least step; 1 for counts.
 * @throws EngineError OUT_OF_DOMAIN
 */
export function linearTicks(range: {
  readonly min: number;
  readonly max: number;
  readonly maxCount: number;
  readonly minStep?: number;
}): readonly Tick[] {
  const { min, max, maxCount, minStep = 0 } = range;
  requireInRange("min", min, -1e12, 1e12);
  requireInRange("max", max, min, 1e12);
  requireInRange("maxCount", maxCount, 3, 100);
  // Closer together than their digits can part, or than any figure is meant, values are one value.
  const size = Math.max(Math.abs(min), Math.abs(max));
  const top = max - min >= Math.max(LEAST * size, LEAST) ? max : min + (size >= LEAST ? size : 1);
  for (let exponent = Math.floor(Math.log10((top - min) / maxCount)); ; exponent++) {
    for (const digit of DIGITS) {
      const step = timesPowerOfTen(digit, exponent);
      const first = Math.floor(min / step);
      const count = Math.ceil(top / step) - first + 1;
      if (step < minStep || count > maxCount) continue;
      return Array.from({ length: count }, (_, index) => {
        const value = timesPowerOfTen((first + index) * digit, exponent);
        return { value, text: numberText(value, Math.max(0, -exponent)) };
      });
    }
  }
}

/**
 * Ticks of a logarithmic axis: 1, 2 and 5 of each decade where there is room, else decades, else every so
 * many decades. There are always two at least.
 *
 * @param range.min Smallest value, 1e-12 to 1e12.
 * @param range.max Largest value, not below `min`.
 * @param range.maxCount Most ticks wanted, 3 to 100.
 * @throws EngineError OUT_OF_DOMAIN
 */
export function logTicks(range: {
  readonly min: number;
  readonly max: number;
  readonly maxCount: number;
}): readonly Tick[] {
  const { min, max, maxCount } = range;
  requireInRange("min", min, 1e-12, 1e12);
  requireInRange("max", max, min, 1e12);
  requireInRange("maxCount", maxCount, 3, 100);
  const firstDecade = Math.floor(Math.log10(min));
  const lastDecade = Math.floor(Math.log10(max)) + 1;
  const fine = Array.from({ length: lastDecade - firstDecade }, (_, index) =>
    DIGITS.map((digit) => logTick(digit, firstDecade + index)),
  ).flat();
  fine.push(logTick(1, lastDecade));
  const from = fine.findLastIndex(({ value }) => value <= min);
  const to = fine.findIndex(({ value }, index) => value >= max && index > from);
  if (to - from < maxCount) return fine.slice(Math.max(0, from), to + 1);
  for (let every = 1; ; every++) {
    const first = Math.floor(firstDecade / every);
    const count = Math.ceil(Math.log10(max) / every) - first + 1;
    if (count > maxCount) continue;
    return Array.from({ length: count }, (_, index) => logTick(1, (first + index) * every));
  }
}

const logTick = (digit: number, exponent: number): Tick => {
  const value = timesPowerOfTen(digit, exponent);
  return { value, text: exponent < -3 ? numberText(value, 0) : numberText(value, Math.max(0, -exponent)) };
};

/** Dividing by 10 is exact to the last digit where multiplying by 0.1 is not. */
const timesPowerOfTen = (digits: number, exponent: number): number =>
  exponent < 0 ? digits / 10 ** -exponent : digits * 10 ** exponent;
