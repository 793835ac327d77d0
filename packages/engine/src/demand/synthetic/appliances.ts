import type { Citation } from "../../worked/index.ts";

/** What is published of one kind of appliance. */
export interface ApplianceFigures {
  /** Share of dwellings that have one. 0 to 1 */
  readonly ownedShare: number;
  /** Uses in a year of a dwelling that has one. */
  readonly usesPerYear: number;
  /** Mean length of a use. [min] */
  readonly useMin: number;
  /** Mean power while in use. [W] */
  readonly runningW: number;
  /** Power while not in use. [W] */
  readonly standbyW: number;
  /** Of the current in use, lagging. Above 0, up to 1 */
  readonly powerFactor: number;
}

/** How the uses of one kind of appliance lie in day, week and year. */
export interface ApplianceHabit {
  /** Hours in which it is switched on; "evenly" for what runs by its own thermostat, whoever is at home. */
  readonly hours: DayHours | "evenly";
  /** Extra use at midwinter, and as much less at midsummer, as a share of the yearly mean. 0 to 1 */
  readonly winterSwing: number;
  /** Whether a day has one use or none, and never more. */
  readonly isAtMostOnce?: true;
  /** Whether its use grows with the people in the dwelling and with how busy their day is. */
  readonly followsPeople: boolean;
  /** A first part of each use at another power; the rest makes up the mean. */
  readonly heatedFirst?: { readonly min: number; readonly powerW: number };
}

/** Names of the patterns of hours. */
export const DAY_HOURS = [
  "drinks",
  "meals",
  "washing",
  "chores",
  "leisure",
  "light",
  "water",
  "warmth",
  "night",
] as const;
export type DayHours = (typeof DAY_HOURS)[number];

/** How likely each of the 24 hours is, from midnight, in any unit; only the ratios count. */
export interface HoursOfDay {
  readonly weekday: readonly number[];
  readonly weekend: readonly number[];
  /** Uses on a day of the weekend, of those on a mean day. 0 to 3.5 */
  readonly weekendUse: number;
}

/** How a heat pump's electricity follows the weather and the hours. */
export interface HeatPumpHabit {
  /** Electricity of a day for each kelvin outdoors below the base. [Wh/K] */
  readonly energyPerKelvinDayWh: number;
  readonly inputW: number;
  readonly powerFactor: number;
  readonly hours: DayHours;
  /** Outdoor temperature from which nothing is heated. [°C] */
  readonly baseC: number;
  /** Outdoor temperature: yearly mean, swing about it, and spread of single days about the season. [°C, °C, K] */
  readonly meanC: number;
  readonly swingC: number;
  readonly spreadK: number;
}

/** How households differ. */
export interface HouseholdHabit {
  /** Share of households by people in them: one, two, and so on. They add up to 1. */
  readonly peopleShares: readonly number[];
  /** Use per household by people in it, of the mean over all households. */
  readonly useByPeople: readonly number[];
  /** Standard deviation of the logarithm of use from household to household, and from day to day. */
  readonly spread: number;
  readonly dailySpread: number;
  /** Standard deviation of a household's clock about the pattern. [min] */
  readonly clockSpreadMin: number;
}

export type ApplianceId = string;

/** Everything the synthetic demand is drawn from: what is published, and what is this project's own. */
export interface ApplianceTable {
  readonly figures: {
    readonly citation: Citation;
    readonly rows: Readonly<Record<ApplianceId, ApplianceFigures>>;
  };
  readonly habits: {
    readonly citation: Citation;
    readonly rows: Readonly<Record<ApplianceId, ApplianceHabit>>;
    /** Lighting, which the published figures leave out, as one more appliance. */
    readonly lighting: ApplianceFigures & ApplianceHabit;
    readonly hours: Readonly<Record<DayHours, HoursOfDay>>;
    readonly heatPump: HeatPumpHabit;
    readonly households: HouseholdHabit;
  };
}
