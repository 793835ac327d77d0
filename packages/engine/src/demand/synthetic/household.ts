import { drawNormal, type RandomStream } from "../../chance/index.ts";
import type {
  ApplianceFigures,
  ApplianceHabit,
  ApplianceId,
  ApplianceTable,
  DayHours,
  HeatPumpHabit,
} from "./appliances.ts";
import { type DayPattern, dayPattern } from "./day-pattern.ts";

/** One kind of appliance, made ready for the loop; all households that own it share it. */
export interface OwnedAppliance {
  readonly id: ApplianceId;
  /** Null for what runs evenly by its own thermostat. */
  readonly pattern: DayPattern | null;
  /** Uses on a mean day of a mean household. */
  readonly usesPerDay: number;
  readonly winterSwing: number;
  readonly isAtMostOnce: boolean;
  readonly followsPeople: boolean;
  /** Mean length of a use, and of its heated first part. [s] */
  readonly useS: number;
  readonly heatedS: number;
  /** Power above standby in the heated first part and in the rest. [W, whole] */
  readonly heatedW: number;
  readonly runningW: number;
  /** Reactive power while in use. [var, whole] */
  readonly runningVar: number;
}

export interface HouseHeatPump extends HeatPumpHabit {
  /** Share of a day's heat in each hour, of the mean hour. */
  readonly hourShares: readonly number[];
}

/** One household: who lives there and what it has. The same for every day. */
export interface Household {
  /** Number of the site: it keeps its random numbers apart from every other's. */
  readonly site: number;
  readonly people: number;
  /** How much it uses what follows people, of the mean household. */
  readonly use: number;
  /** Power drawn always: the standby of everything owned. [W, whole] */
  readonly standbyW: number;
  /** How far its clock stands behind the common pattern. [s] */
  readonly clockS: number;
  readonly appliances: readonly OwnedAppliance[];
  readonly heatPump: HouseHeatPump | null;
  /** Standard deviation of the logarithm of use from day to day. */
  readonly dailySpread: number;
}

/** What is known of a household, or of the street it is drawn from. */
export interface HouseholdKnown {
  /** Chance of having each appliance, in place of the published share: 1 where it is there, 0 where it is not. */
  readonly ownedShares?: Readonly<Record<ApplianceId, number>>;
  /** Chance of a heat pump. 0 to 1; without it 0 */
  readonly heatPumpShare?: number;
  readonly people?: number;
}

/** A street's appliances made ready once, so that drawing a household is cheap. */
export interface HouseholdSource {
  readonly table: ApplianceTable;
  readonly candidates: readonly {
    readonly ownedShare: number;
    readonly standbyW: number;
    readonly appliance: OwnedAppliance;
  }[];
  readonly heatPumpShare: number;
  readonly heatPump: HouseHeatPump;
  readonly people: number | null;
  readonly meanUse: number;
}

export function householdSource(table: ApplianceTable, known: HouseholdKnown = {}): HouseholdSource {
  const { habits, figures } = table;
  const patterns = Object.fromEntries(
    Object.entries(habits.hours).map(([name, hours]) => [name, dayPattern(hours)]),
  ) as Record<DayHours, DayPattern>;
  const rows = Object.entries(figures.rows).map(
    ([id, row]) => [id, row, habits.rows[id] as ApplianceHabit] as const,
  );
  const { lighting, heatPump, households } = habits;
  return {
    table,
    candidates: [...rows, ["lighting", lighting, lighting] as const].map(([id, row, habit]) => ({
      ownedShare: known.ownedShares?.[id] ?? row.ownedShare,
      standbyW: row.standbyW,
      appliance: owned(id, row, habit, patterns),
    })),
    heatPumpShare: known.heatPumpShare ?? 0,
    heatPump: { ...heatPump, hourShares: hourShares(habits.hours[heatPump.hours].weekday) },
    people: known.people ?? null,
    meanUse: households.peopleShares.reduce(
      (sum, share, index) => sum + share * (households.useByPeople[index] as number),
      0,
    ),
  };
}

function owned(
  id: ApplianceId,
  row: ApplianceFigures,
  habit: ApplianceHabit,
  patterns: Readonly<Record<DayHours, DayPattern>>,
): OwnedAppliance {
  const drawnW = row.runningW - row.standbyW;
  const { min: heatedMin, powerW } = habit.heatedFirst ?? { min: 0, powerW: 0 };
  return {
    id,
    pattern: habit.hours === "evenly" ? null : patterns[habit.hours],
    usesPerDay: row.usesPerYear / 365,
    winterSwing: habit.winterSwing,
    isAtMostOnce: habit.isAtMostOnce === true,
    followsPeople: habit.followsPeople,
    useS: row.useMin * 60,
    heatedS: heatedMin * 60,
    heatedW: powerW,
    runningW: Math.round((drawnW * row.useMin - powerW * heatedMin) / (row.useMin - heatedMin)),
    runningVar: Math.round(drawnW * Math.sqrt(1 / row.powerFactor ** 2 - 1)),
  };
}

function hourShares(weights: readonly number[]): readonly number[] {
  const whole = weights.reduce((sum, weight) => sum + weight, 0);
  return weights.map((weight) => (24 * weight) / whole);
}

/**
 * Draws one household: the people, what they own, and how far their clock is off.
 *
 * The same seed and site give the same household whatever was drawn before.
 */
export function drawHousehold(source: HouseholdSource, random: RandomStream, site: number): Household {
  random.start("household", { site, day: 0 });
  const { peopleShares, useByPeople, spread, dailySpread, clockSpreadMin } = source.table.habits.households;
  const drawn = peopleBy(peopleShares, random.uniform());
  const people = source.people ?? drawn;
  const byPeople = (useByPeople[Math.min(people, useByPeople.length) - 1] as number) / source.meanUse;
  // A lognormal of mean 1: the median lies below it by half the variance.
  const use = byPeople * Math.exp(spread * drawNormal(random) - spread ** 2 / 2);
  const clockS = Math.round(60 * clockSpreadMin * drawNormal(random));
  const hasHeatPump = random.uniform() < source.heatPumpShare;
  let standbyW = 0;
  const appliances: OwnedAppliance[] = [];
  for (const candidate of source.candidates) {
    if (random.uniform() >= candidate.ownedShare) continue;
    const { appliance } = candidate;
    standbyW += candidate.standbyW;
    appliances.push(appliance);
  }
  return {
    site,
    people,
    use,
    standbyW,
    clockS,
    appliances,
    heatPump: hasHeatPump ? source.heatPump : null,
    dailySpread,
  };
}

function peopleBy(shares: readonly number[], uniform: number): number {
  let below = 0;
  for (let index = 0; index < shares.length - 1; index++) {
    below += shares[index] as number;
    if (uniform < below) return index + 1;
  }
  return shares.length;
}
