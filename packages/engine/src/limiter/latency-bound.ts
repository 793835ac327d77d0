/**
 * Longest time over the limit after a load step, from the delays of the chain alone.
 *
 *     T = average + read + decide + command + car dead time + fall
 *
 * The step may come just after a reading, the reading just after a decision. Holds for the direct law, or
 * for an integrating one that settles in a single decision (gain 1 with no late decisions), for a building
 * that by itself stays under the limit, and while no offer rises meanwhile.
 *
 * @module
 */
import type { ControlSettings } from "./control.ts";

/** How a car answers a changed offer. */
export interface CarResponse {
  /** Time before its current begins to move. [s] */
  readonly deadS: number;
  /** How fast its current falls; Infinity for at once. [A/s] */
  readonly fallAPerS: number;
  /** How fast its current rises. [A/s] */
  readonly riseAPerS: number;
  /** Time from an offer after a pause until it draws again. [s] */
  readonly resumeS: number;
}

export interface LatencyPart {
  readonly part: "average" | "read" | "decide" | "command" | "car" | "fall";
  readonly timeS: number;
}

export interface LatencyBound {
  readonly parts: readonly LatencyPart[];
  readonly totalS: number;
}

/**
 * Bound on the time over the limit.
 *
 * @param input.fallA Most by which the car must fall: its whole current when that is not known better. [A]
 */
export function latencyBound(input: {
  readonly settings: ControlSettings;
  readonly car: Pick<CarResponse, "deadS" | "fallAPerS">;
  readonly fallA: number;
}): LatencyBound {
  const { settings, car, fallA } = input;
  return bound([
    { part: "average", timeS: settings.averageS },
    { part: "read", timeS: settings.readEveryS },
    { part: "decide", timeS: settings.decideEveryS },
    { part: "command", timeS: settings.commandS },
    { part: "car", timeS: car.deadS },
    { part: "fall", timeS: fallA / car.fallAPerS },
  ]);
}

export interface BlindBound {
  readonly parts: readonly (LatencyPart | { readonly part: "time-out"; readonly timeS: number })[];
  readonly totalS: number;
}

/**
 * The same when readings or commands stop meanwhile: the time-out comes on top.
 *
 * Nothing of the chain is saved: the last reading may be a mean that holds only part of the step, and the
 * manager may stop after the reading that shows all of it, just before it decides.
 *
 * @returns Null without a fallback: nothing ends it.
 */
export function blindLatencyBound(input: {
  readonly settings: ControlSettings;
  readonly car: Pick<CarResponse, "deadS" | "fallAPerS">;
  readonly fallA: number;
}): BlindBound | null {
  const { fallbackA, fallbackAfterS } = input.settings;
  if (fallbackA === null) return null;
  const { parts, totalS } = latencyBound(input);
  return { parts: [{ part: "time-out", timeS: fallbackAfterS }, ...parts], totalS: fallbackAfterS + totalS };
}

/**
 * The longest time-out with which the fallback is taken within a time, in whole seconds.
 *
 * @param withinS From the last reading to the car's current at the fallback. [s]
 * @returns Null where none does and still outlasts the time between readings: the rest of the way is too slow.
 */
export function longestTimeOutS(
  blind: BlindBound,
  { fallbackAfterS, readEveryS }: Pick<ControlSettings, "fallbackAfterS" | "readEveryS">,
  withinS: number,
): number | null {
  const mostS = Math.floor(withinS - (blind.totalS - fallbackAfterS));
  return Number.isFinite(mostS) && mostS > 0 && mostS >= readEveryS ? mostS : null;
}

const bound = (parts: readonly LatencyPart[]): LatencyBound => ({
  parts,
  totalS: parts.reduce((sum, { timeS }) => sum + timeS, 0),
});
