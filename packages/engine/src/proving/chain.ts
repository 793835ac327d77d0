import type { FaultOf } from "./fault.ts";
import { identity, type Matrix } from "./matrix.ts";

/**
 * What a metering chain does to the currents and voltages of the site, as one value.
 *
 * Sound, every matrix is the identity, every factor 1. Faults change it; `predict-reading.ts` reads
 * it forwards and the diagnosis backwards.
 */
export interface Chain {
  /** 1 or 3: lines, and channels of the meter. */
  readonly lines: number;
  /** Changes of the site itself. */
  readonly site: readonly FaultOf<"F44" | "F65" | "F46" | "F17">[];
  /** Row c: how the conductors inside the transformer of channel c add up. */
  readonly window: Matrix;
  /** Per channel, 1 where it is upstream of the building, 0 where it misses it. */
  readonly seesBuilding: readonly number[];
  readonly seesChargePoint: readonly number[];
  readonly seesGeneration: readonly number[];
  /** Share of the building that the metered feed carries. */
  readonly meteredShare: number;
  /** Row c: the current of channel c out of those in the windows. */
  readonly secondary: Matrix;
  /** Row c: the voltage of channel c out of those of the lines. */
  readonly taps: Matrix;
  /** Product of all current settings. */
  readonly setting: number;
  readonly clipA: number;
  readonly floorA: number;
  readonly mode: "each-line" | "two-element" | "first-line" | "first-line-copied";
  readonly decoding: readonly FaultOf<"F43" | "F58" | "F59" | "F60">[];
}

/** A chain without fault. Chains are never changed in place, so one serves all. */
export const soundChain = (lines: number): Chain => (lines === 1 ? SOUND_ONE : SOUND_THREE);

function made(lines: number): Chain {
  const all = Array.from({ length: lines }, () => 1);
  return {
    lines,
    site: [],
    window: identity(lines),
    seesBuilding: all,
    seesChargePoint: all,
    seesGeneration: all,
    meteredShare: 1,
    secondary: identity(lines),
    taps: identity(lines),
    setting: 1,
    clipA: Number.POSITIVE_INFINITY,
    floorA: 0,
    mode: "each-line",
    decoding: [],
  };
}

const SOUND_ONE = made(1);
const SOUND_THREE = made(3);
