/**
 * A cable or a set of tails as one thermal body.
 *
 *     θ∞ = θa + Δ · (I / Iz)²,   dθ/dt = (θ∞ − θ) / τ
 *
 * Exact for a current that is constant over a step, and stable for any step. One body is fair for a cable;
 * a buried one has a second, slower body in the soil that is left out, which errs on the hot side while
 * the time constant is a cable's own.
 *
 * @module
 */
import { requireInRange } from "../quantities/index.ts";

export interface ThermalBody {
  readonly id: string;
  /** Whether it carries the supply's current, or a charge point's (its index). */
  readonly carries: "supply" | number;
  /** Capacity as installed: the current that holds it at its limit. [A] */
  readonly ratedA: number;
  /** Time constant. [s] */
  readonly tauS: number;
  readonly ambientC: number;
  /** Temperature above ambient at the rated current: 40 K for 70 °C insulation at 30 °C. [K] */
  readonly riseAtRatedK: number;
  /** Temperature it may reach. [°C] */
  readonly limitC: number;
}

/** Temperature that a constant current leads to. [°C] */
export const steadyTemperatureC = (
  { ambientC, riseAtRatedK, ratedA }: ThermalBody,
  currentA: number,
): number => {
  const share = currentA / ratedA;
  return ambientC + riseAtRatedK * share * share;
};

/** Share of the way to the steady temperature that a step goes: 1 − exp(−Δt / τ). */
export const stepShare = (stepS: number, tauS: number): number => -Math.expm1(-stepS / tauS);

/**
 * Time from a steady preload until the limit of temperature is reached under an overload.
 *
 *     t = τ · ln((r² − p²) / (r² − 1))
 *
 * @param input.preload Current before, as a share of the rated one. [1], 0 to 1
 * @param input.overload Current from then on, as a share of the rated one. [1]
 * @returns Infinity for an overload of 1 or less. [s]
 */
export function timeToLimitS(input: {
  readonly tauS: number;
  readonly preload: number;
  readonly overload: number;
}): number {
  const { tauS, preload: p, overload: r } = input;
  requireInRange("preload", p, 0, 1);
  if (r <= 1) return Number.POSITIVE_INFINITY;
  return tauS * Math.log((r * r - p * p) / (r * r - 1));
}

/**
 * Least time constant of a conductor, its own heat alone.
 *
 *     τ = ΔK · Qc / ρ · (S / I)²
 *
 * Insulation adds to it: a body in air is slower, and a buried one much slower.
 *
 * @param input.resistivityOhmMm Resistivity at the limit of temperature. [Ω·mm]
 * @param input.heatJPerKMm3 Heat capacity by volume. [J/(K·mm³)]
 */
export function leastTimeConstantS(input: {
  readonly areaMm2: number;
  readonly ratedA: number;
  readonly riseAtRatedK: number;
  readonly resistivityOhmMm: number;
  readonly heatJPerKMm3: number;
}): number {
  const { areaMm2, ratedA, riseAtRatedK, resistivityOhmMm, heatJPerKMm3 } = input;
  return (riseAtRatedK * heatJPerKMm3 * areaMm2 ** 2) / (resistivityOhmMm * ratedA ** 2);
}
