import { requireInRange } from "../quantities/index.ts";

/** Errors of a current transformer at one current. */
export interface TransformerError {
  /** Current read over current carried, less one. [1]; nearly always negative */
  readonly ratio: number;
  /** Secondary leads the primary. [rad] */
  readonly angleRad: number;
}

/**
 * Errors by the magnetising branch: resistive burden R on an inductive branch ωL, x = R/ωL.
 *
 *     ratio = 1/√(1 + x²) − 1,   angle = atan x
 *
 * Holds below the knee of the magnetising curve; above it the core saturates and the current is clipped.
 *
 * @param x Resistance of winding, lead and meter over the magnetising reactance. [1], 0 to 100
 *
 * Source: equivalent circuit of the transformer; checked against the textbook example of a 1000/5 ring
 * transformer, and against a table worked elsewhere.
 *
 * @example
 * transformerError(0); // → { ratio: 0, angleRad: 0 }
 */
export function transformerError(x: number): TransformerError {
  requireInRange("x", x, 0, 100);
  return { ratio: 1 / Math.sqrt(1 + x * x) - 1, angleRad: Math.atan(x) };
}

/**
 * Error of active power from a phase displacement.
 *
 *     P′/P − 1 = cos δ + tan φ · sin δ − 1
 *
 * @param angleRad δ, secondary leading. [rad], −1 to 1
 * @param loadAngleRad φ, positive lagging. [rad], less than a right angle either way
 * @returns Relative to the true active power. [1]
 *
 * Source: definition of active power.
 *
 * @example
 * activePowerError(Math.PI / 180, Math.PI / 3); // → 0.0300761
 */
export function activePowerError(angleRad: number, loadAngleRad: number): number {
  requireInRange("angleRad", angleRad, -1, 1);
  requireInRange("loadAngleRad", loadAngleRad, -1.57, 1.57);
  return Math.cos(angleRad) + Math.tan(loadAngleRad) * Math.sin(angleRad) - 1;
}

/**
 * Reactive power read over true active power, from a phase displacement.
 *
 *     Q′/P = tan φ · cos δ − sin δ
 *
 * Parameters and source as for {@link activePowerError}.
 *
 * @example
 * reactiveOverActive(Math.PI / 180, 0); // → -0.0174524
 */
export function reactiveOverActive(angleRad: number, loadAngleRad: number): number {
  requireInRange("angleRad", angleRad, -1, 1);
  requireInRange("loadAngleRad", loadAngleRad, -1.57, 1.57);
  return Math.tan(loadAngleRad) * Math.cos(angleRad) - Math.sin(angleRad);
}
