import type { Citation } from "../worked/index.ts";
import type { SunspecTables } from "./registers/index.ts";

/** Limits of one accuracy class of current transformers at one share of rated current. */
export interface ClassLimitRow {
  readonly accuracyClass: string;
  /** [% of rated primary current] */
  readonly percent: number;
  readonly ratioPercent: number;
  /** [minutes of arc]; null where the class promises nothing. */
  readonly phaseMin: number | null;
  readonly citation: Citation;
}

export interface MeteringTables {
  /** By class, the least share of rated current first. */
  readonly classLimits: readonly ClassLimitRow[];
  /** Flexible copper at 20 °C. [mm²] to [Ω/km] */
  readonly leadResistance: readonly {
    readonly mm2: number;
    readonly ohmPerKm: number;
    readonly citation: Citation;
  }[];
  /** Greatest error of a meter of a class, at and above its transitional current. [%] */
  readonly meterClasses: readonly {
    readonly meterClass: string;
    readonly percent: number;
    readonly citation: Citation;
  }[];
  /** Rated secondary current of each kind of current output. [A] */
  readonly ratedSecondary: readonly {
    readonly output: string;
    readonly amps: number;
    readonly citation: Citation;
  }[];
  /** Meters that say themselves where their numbers stand. */
  readonly sunspec: SunspecTables;
}

export type MeteringFigure =
  | "copperTemperatureFactor"
  | "leadTemperature"
  | "secondaryContacts"
  | "transformerPositionError"
  | "transformerOverload"
  | "burdenLeastPercent";
