import type { Curve, OvercurrentStandard } from "../job/index.ts";
import type { Citation } from "../worked/index.ts";

/** Greatest loop impedance printed for a fuse. */
export interface FuseZsRow {
  readonly standard: OvercurrentStandard;
  readonly ratingA: number;
  readonly timeS: 0.4 | 5;
  readonly zsOhm: number;
  /** Whether the printed value already allows for a low supply voltage (Cmin). */
  readonly includesMinVoltageFactor: boolean;
  readonly citation: Citation;
}

/** Gates of a gG fuse-link: currents between which its time-current curve passes. */
export interface FuseGates {
  readonly ratingA: number;
  readonly minAt10s: number;
  readonly maxAt5s: number;
  readonly minAt100ms: number;
  readonly maxAt100ms: number;
  /** Pre-arcing energy at 10 ms. [A²s] */
  readonly minPreArcingA2s: number;
  readonly maxPreArcingA2s: number;
}

/** Greatest energy a circuit-breaker of energy limiting class 3 lets through at its breaking capacity. */
export interface LetThroughRow {
  readonly curve: Curve;
  readonly breakingCapacityKa: number;
  /** Largest rating the row holds for. [A] */
  readonly upToA: number;
  readonly energyA2s: number;
}

export interface ProtectionTables {
  readonly fuseZs: readonly FuseZsRow[];
  /** gG gates, ascending by rating, and the fuse standards they hold for. */
  readonly fuseGates: {
    readonly citation: Citation;
    readonly standards: readonly OvercurrentStandard[];
    readonly rows: readonly FuseGates[];
  };
  readonly letThrough: { readonly citation: Citation; readonly rows: readonly LetThroughRow[] };
}
