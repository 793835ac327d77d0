/**
 * One site as the simulation takes it: supply, manager, charge points, cars, fuse and cables in plain numbers.
 *
 * Lines are numbered 0, 1, 2 for L1, L2, L3; a single-phase supply has line 0 only. Times count in seconds
 * from the start of the first day.
 *
 * @module
 */
import type { CarResponse, ControlSettings } from "../limiter/index.ts";
import type { TimeCurrentBand } from "../protection/index.ts";
import type { ThermalBody } from "./thermal-body.ts";
import type { TimedFault } from "./timed-fault.ts";

export interface PointPlan {
  readonly id: string;
  readonly lines: readonly (0 | 1 | 2)[];
  /** Most it can offer. [A] */
  readonly ratedA: number;
}

export interface CarPlan {
  readonly id: string;
  /** Index of the charge point it uses. */
  readonly point: number;
  /** Most it takes on each line. [A] */
  readonly onboardA: number;
  /** Lines of the charge point it uses, the first ones of it. */
  readonly lineCount: number;
  readonly response: CarResponse;
  /**
   * Energy before full at which its current begins to taper; 0 for a car that does not. It stops at a
   * twentieth of its most. [kWh]
   */
  readonly taperKwh: number;
}

/** A car at its charge point, from when it may charge until it leaves. */
export interface Session {
  /** Index of the car. */
  readonly car: number;
  /** Plugging in, put off by a random delay where there is one. */
  readonly startS: number;
  readonly untilS: number;
  /** Energy wanted, at the charge point. [kWh] */
  readonly wantedKwh: number;
}

export interface SitePlan {
  readonly lineCount: 1 | 3;
  /** Length of a step. [s] */
  readonly stepS: number;
  /**
   * Whether readings and decisions fall at the end of their periods instead of the beginning: just before a load
   * changes with the minute, which is the worst time.
   */
  readonly readsLate?: boolean;
  /** Line to neutral. [V] */
  readonly voltageV: number;
  /** Current per line that nothing may lead the site to exceed. [A] */
  readonly supplyLimitA: number;
  /** Excursions longer than this are listed one by one. [s] */
  readonly listExcursionsFromS: number;
  readonly control: ControlSettings;
  readonly points: readonly PointPlan[];
  readonly cars: readonly CarPlan[];
  readonly fuse: {
    readonly band: TimeCurrentBand;
    /** Time constant with which used life is taken back while it carries less than its first gate. [s] */
    readonly coolingS: number;
  } | null;
  readonly bodies: readonly ThermalBody[];
  readonly faults: readonly TimedFault[];
}
