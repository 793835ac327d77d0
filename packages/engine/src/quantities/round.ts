/** Which way a printed figure may differ from the computed one. */
export type Rounding = "down" | "up" | "nearest";

/**
 * Rounds a figure for print. The engine computes unrounded; only documents and screens round, once.
 *
 * Use `"down"` for a maximum that must not be exceeded (Zs limit, rating), `"up"` for a demand or a
 * minimum to reach (maximum demand, conductor area), `"nearest"` for everything else. Halves round
 * away from zero, as printed tables do.
 *
 * @param value Any finite number.
 * @param decimals Digits after the point, 0 to 9.
 *
 * @example
 * roundTo(1.0925, "down", 2); // → 1.09
 * @example
 * roundTo(0.29, "down", 2); // → 0.29
 */
export function roundTo(value: number, direction: Rounding, decimals: number): number {
  const scale = 10 ** decimals;
  const scaled = value * scale;
  // 0.29 * 100 is 28.999999999999996: a slack far below any printed digit keeps 0.29 at 0.29.
  const slack = 1e-9 * Math.max(1, Math.abs(scaled));
  const whole =
    direction === "down"
      ? Math.floor(scaled + slack)
      : direction === "up"
        ? Math.ceil(scaled - slack)
        : Math.sign(scaled) * Math.floor(Math.abs(scaled) + 0.5 + slack);
  return whole / scale || 0;
}
