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
}

/**
 * A run under way: gives the days that are done after each of them, and the result in the end. Sent `false`, it
 * ends early and its result counts the days that are finished.
 */
export type Running<Result> = Generator<number, Result, boolean | undefined>;

/** Runs to the end. */
export function finished<Result>(running: Running<Result>): Result {
  for (;;) {
    const { done, value } = running.next();
    if (done) return value;
  }
}

/** Runs one plan. */
export function simulate(simulation: Simulation): SiteOutcome {
  const [outcome] = simulateAll({ ...simulation, plans: [simulation.plan] });
  return outcome as SiteOutcome;
}

export type SideBySide = Omit<Simulation, "plan"> & { readonly plans: readonly SitePlan[] };

/** Runs several plans side by side over one building and the same cars; each day is drawn once. */
export const simulateAll = (simulation: SideBySide): readonly SiteOutcome[] => finished(running(simulation));

/** The same, day by day. */
export function* running({
  plans,
  habits,
  building,
  days,
  seed,
  watch,
}: SideBySide): Running<readonly SiteOutcome[]> {
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
    if ((yield day + 1) === false) break;
  }
  for (const run of runs) finishRun(run);
  return runs.map(outcomeOf);
}
