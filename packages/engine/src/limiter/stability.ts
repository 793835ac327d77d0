/**
 * When a control law settles: limits of the gain against the delay of its chain.
 *
 * The integrating law, one decision after another, with a chain that answers `d` decisions late, is
 *
 *     x(k+1) = x(k) + g · (r − x(k−d)),   characteristic equation z^(d+1) − z^d + g = 0
 *
 * The direct law has no such limit while total and cars are read together: it does not look at its own
 * effect. Limits rest on the textbook theory of a sampled integrator with dead time; the derivation stands
 * in docs/simulation-model.md.
 *
 * @module
 */
import { requireInRange } from "../quantities/index.ts";
import type { ControlSettings } from "./control.ts";

/** Largest gain that is stable: g < 2 sin(π / (2(2d + 1))). @param lateDecisions d, 0 to 10 000. */
export function stableGainLimit(lateDecisions: number): number {
  requireInRange("lateDecisions", lateDecisions, 0, 10_000);
  return 2 * Math.sin(Math.PI / (2 * (2 * lateDecisions + 1)));
}

/** Largest gain that does not overshoot: d^d / (d + 1)^(d + 1). @param lateDecisions d, 0 to 10 000. */
export function calmGainLimit(lateDecisions: number): number {
  requireInRange("lateDecisions", lateDecisions, 0, 10_000);
  const d = lateDecisions;
  return d === 0 ? 1 : (d / (d + 1)) ** d / (d + 1);
}

export interface Stability {
  /** Decisions by which the chain answers late. */
  readonly lateDecisions: number;
  readonly gain: number;
  readonly stableBelow: number;
  readonly calmUpTo: number;
  readonly state: "calm" | "rings" | "unstable";
}

/**
 * How an integrating law behaves with the delays of its chain; null for the direct law.
 *
 * @param carS Dead time of the slowest car, with the time its current takes to fall. [s]
 */
export function stabilityOf(settings: ControlSettings, carS: number): Stability | null {
  if (settings.law.kind === "direct") return null;
  const periodS = Math.max(settings.readEveryS, settings.decideEveryS);
  const chainS = settings.averageS + settings.commandS + carS;
  const lateDecisions = Math.max(0, Math.ceil(chainS / periodS - 1e-9));
  const { gain } = settings.law;
  const [stableBelow, calmUpTo] = [stableGainLimit(lateDecisions), calmGainLimit(lateDecisions)];
  const state = gain >= stableBelow ? "unstable" : gain > calmUpTo ? "rings" : "calm";
  return { lateDecisions, gain, stableBelow, calmUpTo, state };
}
