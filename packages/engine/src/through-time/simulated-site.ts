/**
 * A job simulated: what it rests on, what came of it, and what becomes of it when something fails.
 *
 * @module
 */
import {
  type BlindBound,
  blindLatencyBound,
  type ClassedExcursion,
  classExcursions,
  type LatencyBound,
  type Stability,
  type StateTimes,
  stabilityOf,
} from "../limiter/index.ts";
import type { Study } from "../rules/index.ts";
import {
  answerS,
  faultTrials,
  finished,
  type MinuteWatcher,
  planLatency,
  type Running,
  running,
  type SiteOutcome,
  slowestCar,
  type Trial,
} from "../simulation/index.ts";
import type { BuildingSource } from "./building-source.ts";
import { type Doubt, doubtsOf } from "./doubts.ts";
import { excursionTimes } from "./excursion-times.ts";
import { type HiddenDemand, hiddenDemand } from "./hidden-demand.ts";
import type { PlannedSite } from "./site-plan-of.ts";

export interface SimulationTerms {
  readonly building: BuildingSource;
  readonly days: number;
  readonly seed: number;
  /** Whether each fault is tried, with the fallback and without. */
  readonly triesFaults: boolean;
  /** Fallback that the design allows, tried while none is recorded; null where it cannot be told. [A] */
  readonly designedFallbackA: number | null;
  readonly watch?: MinuteWatcher;
}

export interface SimulatedSite extends StateTimes {
  readonly site: PlannedSite;
  readonly terms: SimulationTerms;
  readonly outcome: SiteOutcome;
  /** Longest time over the limit after a load step, from the delays alone; null where the law has no such bound. */
  readonly latency: LatencyBound | null;
  readonly blind: BlindBound | null;
  readonly stability: Stability | null;
  /** The excursions that are longer than usual, by the operator's states; for each line. */
  readonly states: readonly (readonly ClassedExcursion[])[];
  readonly trials: readonly Trial[];
  /** What means longer than a minute leave open about the main fuse; null where there are none. */
  readonly hidden: HiddenDemand | null;
  /** Why nothing about the supply can pass; empty where it can. */
  readonly doubts: readonly Doubt[];
}

/** Runs a planned site, and its fault trials when asked. */
export const simulateSite = (study: Study, site: PlannedSite, terms: SimulationTerms): SimulatedSite =>
  finished(simulatingSite(study, site, terms));

/** The same, day by day. */
export function* simulatingSite(
  study: Study,
  site: PlannedSite,
  terms: SimulationTerms,
): Running<SimulatedSite> {
  const { plan, habits } = site;
  const { building, days, seed, watch } = terms;
  const [outcome] = (yield* running({
    plans: [plan],
    habits,
    building,
    days,
    seed,
    ...(watch && { watch }),
  })) as [SiteOutcome];
  const fallback = plan.control.fallbackA ?? terms.designedFallbackA;
  const slowest = slowestCar(plan);
  const times = excursionTimes(study);
  return {
    site,
    terms,
    outcome,
    latency: planLatency(plan),
    blind: blindLatencyBound({ settings: plan.control, car: slowest.response, fallA: slowest.onboardA }),
    stability: stabilityOf(plan.control, answerS(slowest)),
    states: site.lines.map((_, line) =>
      classExcursions(
        outcome.excursions.filter((excursion) => excursion.line === line),
        times,
      ),
    ),
    ...times,
    hidden: hiddenDemand(study, building, outcome.days),
    doubts: doubtsOf({ building, outcome, site }),
    trials: terms.triesFaults
      ? faultTrials({
          plan,
          habits,
          building,
          days: outcome.days,
          fallbacksA: fallback === null ? [null] : [fallback, null],
        })
      : [],
  };
}
