/**
 * A job's load manager swept over its settings, and the settings to choose.
 *
 * @module
 */

import type { Study } from "../rules/index.ts";
import {
  faultTrials,
  planWith,
  type Recommendation,
  type Refusal,
  recommend,
  refusalOf,
  type SweepTerms,
  type SweptSetting,
  simulate,
  type Trial,
} from "../simulation/index.ts";
import { isKnown } from "../worked/index.ts";
import type { BuildingSource } from "./building-source.ts";
import { designedFallbackA } from "./designed-fallback.ts";
import { excursionTimes } from "./excursion-times.ts";
import { mostTimeOutS } from "./most-time-out.ts";
import type { PlannedSite } from "./site-plan-of.ts";

/** Lists of values to combine. */
export interface SweepGrid {
  readonly limitA: readonly number[];
  readonly marginA: readonly number[];
  readonly readEveryS: readonly number[];
  readonly fallbackA: readonly (number | null)[];
}

export interface SweptSite {
  readonly site: PlannedSite;
  readonly swept: readonly SweptSetting[];
  readonly building: BuildingSource;
  readonly terms: SweepTerms;
  readonly recommendation:
    | Recommendation
    | { readonly setting: null; readonly refused: Recommendation["refused"] };
  /** Each fallback tried with the bus broken at the building's highest, at the recommended setting. */
  readonly fallbacks: readonly (Trial & { readonly refusal: Refusal | null })[];
  /** The highest fallback that stayed safe; null when none did or none was tried. [A] */
  readonly fallbackA: number | null;
  /** What the design leaves each charge point, the building at its most; no higher one is safe; null: not known. [A] */
  readonly designedA: number | null;
  /** Longest time-out with which a fallback is taken in time wherever the building rises; null where none is. [s] */
  readonly mostTimeOutS: number | null;
}

/**
 * The grid of a site when nothing is asked: margins and readings about the usual ones under the supply's limit, with
 * those of the job among them; a pause, the fallback that is recorded, the one designed, and the least offer.
 */
export function usualGrid({ plan }: PlannedSite, designedFallbackA: number | null): SweepGrid {
  const { limitA, marginA, readEveryS, fallbackA, minOfferA } = plan.control;
  const own = plan.supplyLimitA - (limitA - marginA);
  const ascending = (values: readonly number[]) => [...new Set(values)].toSorted((a, b) => a - b);
  return {
    limitA: [plan.supplyLimitA],
    marginA: ascending([0, 1, 2, 3, 4, 6, 8, 10, ...(own >= 0 ? [own] : [])]),
    readEveryS: ascending([1, 2, 5, 10, readEveryS]),
    fallbackA: ascending([0, minOfferA, designedFallbackA ?? 0, fallbackA ?? 0]),
  };
}

/** What the swept settings of a site speak for. @param swept Those that were run; all over the same days. */
export function judgeSweep(
  study: Study,
  site: PlannedSite,
  run: {
    readonly building: BuildingSource;
    readonly seed: number;
    readonly grid: SweepGrid;
  },
  swept: readonly SweptSetting[],
): SweptSite {
  const { building, seed, grid } = run;
  const { plan, habits } = site;
  const { usualS, longestS } = excursionTimes(study);
  const done = swept[0]?.outcome.days ?? 0;
  const { highestLimit } = study;
  const terms: SweepTerms = {
    plan,
    highestA: isKnown(highestLimit) ? highestLimit.value : plan.supplyLimitA,
    usualS,
    withoutCars: simulate({ plan, habits: [], building, days: done, seed }),
  };
  // A lost bus is no normal running: what is judged is the longest time, as the trials of a simulation are.
  const failing = { ...terms, usualS: longestS };
  const recommendation = recommend(swept, terms);
  const { setting } = recommendation;
  const fallbacks =
    setting === null || done === 0
      ? []
      : faultTrials({
          plan: planWith(plan, setting),
          habits,
          building,
          days: done,
          fallbacksA: grid.fallbackA,
          kinds: ["bus-lost", "bus-lost-on-rise"],
        }).map((trial) => ({ ...trial, refusal: refusalOf(trial.outcome, failing) }));
  const designedA = designedFallbackA(study, site);
  const safe = grid.fallbackA.flatMap((fallbackA) =>
    fallbackA !== null &&
    fallbackA <= (designedA ?? fallbackA) &&
    fallbacks.every((trial) => trial.fallbackA !== fallbackA || trial.refusal === null)
      ? [fallbackA]
      : [],
  );
  return {
    site,
    swept,
    building,
    terms,
    recommendation,
    fallbacks,
    fallbackA: safe.length === 0 ? null : Math.max(...safe),
    designedA,
    mostTimeOutS: setting === null ? null : mostTimeOutS(study, planWith(plan, setting)),
  };
}
