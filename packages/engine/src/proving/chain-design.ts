import type { Line } from "../quantities/index.ts";
import type { DesignedPlace } from "./designed-place.ts";

/** What the diagnosis must know of the chain as designed, beyond its sound working. */
export interface ChainDesign {
  /** 1 or 3. */
  readonly lines: 1 | 3;
  /** Name of each channel: that of the line it should watch. */
  readonly channels: readonly Line[];
  /** True when a three-phase supply stands behind a single-phase chain: its voltage may come from another line. */
  readonly isOnThreePhaseSupply: boolean;
  /** Rated transformer ratio, primary over secondary; null for a voltage output or while unknown. [A/A] */
  readonly ratio: number | null;
  /** Rated secondary current, 1 or 5; null as above. [A] */
  readonly secondaryA: number | null;
  /** Rated primary current; null while unknown. [A] */
  readonly primaryA: number | null;
  /** Ratio error of transformer and meter together, one standard deviation. [1] */
  readonly gainSd: number;
  /** Phase displacement, one standard deviation. [rad] */
  readonly angleSd: number;
  readonly hasGeneration: boolean;
  /** Where the design puts each channel's transformer, and what it misses there. One for each channel. */
  readonly places: readonly DesignedPlace[];
}
