/**
 * A site simulated over a number of days.
 *
 * @module
 */
import { RandomStream } from "../chance/index.ts";
import { outcomeOf, type SiteOutcome } from "./outcome.ts";
import { type CarHabit, sessionsOfDay } from "./sessions.ts";
import type { SitePlan } from "./site-plan.ts";
import {
  addSessions,
  createSiteRun,
  finishRun,
  type MinuteWatcher,
  runDay,
  type SiteRun,
} from "./site-run.ts";

/** Current of the building alone, one day at a time. */
export interface BuildingDemand {
  readonly intervalsPerDay: number;
  /**
   * Writes one day.
   *
   * @param intoA For each interval its lines, one after another; NaN where nobody recorded it. [A]
   */
  readonly fill: (day: number, intoA: Float64Array) => void;
}

export interface Simulation {
  readonly plan: SitePlan;
  readonly habits: readonly CarHabit[];
  readonly building: BuildingDemand;
  readonly days: number;
  /** For the cars; a building that is drawn has its own. */
  readonly seed: number;
  readonly watch?: MinuteWatcher;
  /** Asked after every day; a run that is stopped counts the days that are finished. */
  readonly goesOn?: (daysDone: number) => boolean;
}

/** Runs one plan. */
export function simulate(simulation: Simulation): SiteOutcome {
  const [outcome] = simulateAll({ ...simulation, plans: [simulation.plan] });
  return outcome as SiteOutcome;
}

/** Runs several plans side by side over one building and the same cars; each day is drawn once. */
export function simulateAll(
  simulation: Omit<Simulation, "plan"> & { readonly plans: readonly SitePlan[] },
): readonly SiteOutcome[] {
  const { plans, habits, building, days, seed, watch, goesOn } = simulation;
  const runs: readonly SiteRun[] = plans.map(createSiteRun);
  const random = new RandomStream(seed);
  const dayA = new Float64Array(building.intervalsPerDay * (plans[0]?.lineCount ?? 1));
  for (let day = 0; day < days; day++) {
    building.fill(day, dayA);
    const sessions = sessionsOfDay(habits, random, day);
    for (const run of runs) {
      addSessions(run, sessions);
      runDay(run, dayA, watch);
    }
    if (goesOn?.(day + 1) === false) break;
  }
  for (const run of runs) finishRun(run);
  return runs.map(outcomeOf);
}
