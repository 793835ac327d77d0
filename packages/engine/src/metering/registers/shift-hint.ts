import type { DecodeLimits } from "./decode-limits.ts";
import type { RegisterRow } from "./register-map.ts";
import { fittingCount } from "./tell-order.ts";

/** How far addresses are met off those on the line: counted from one, or with the table's number in front. */
const SHIFTS = [1, -1, 30_000, 30_001, 40_000, 40_001];

/** Registers with every address that many lower. What would fall below 0 or above 65535 is left out. */
export const shiftedBy = (
  registers: ReadonlyMap<number, number>,
  shift: number,
): ReadonlyMap<number, number> =>
  new Map(
    [...registers].flatMap(([address, register]): readonly (readonly [number, number])[] => {
      const at = address - shift;
      return at < 0 || at > 0xffff ? [] : [[at, register]];
    }),
  );

/** How much the dump's addresses lie above the map's, where more voltages and frequency make sense so; null otherwise. */
export function shiftOf(
  rows: readonly RegisterRow[],
  registers: ReadonlyMap<number, number>,
  limits: DecodeLimits,
): number | null {
  const asGiven = fittingCount(rows, registers, limits);
  const counts = SHIFTS.map((shift) => fittingCount(rows, shiftedBy(registers, shift), limits));
  const best = Math.max(...counts);
  const isOnly = counts.indexOf(best) === counts.lastIndexOf(best);
  return best > asGiven && isOnly ? (SHIFTS[counts.indexOf(best)] ?? null) : null;
}
