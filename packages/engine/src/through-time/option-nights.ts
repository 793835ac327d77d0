/**
 * What each way of doing the job gives the cars, night by night.
 *
 * @module
 */

import type { Option, OptionKind, Study } from "../rules/index.ts";
import { finished, type Running, running, type SiteOutcome, type SitePlan } from "../simulation/index.ts";
import { isKnown, type Quantity } from "../worked/index.ts";
import type { BuildingSource } from "./building-source.ts";
import { mostTimeOutS } from "./most-time-out.ts";
import type { PlannedSite } from "./site-plan-of.ts";

export interface OptionNights {
  readonly days: number;
  /** What the building's current was taken from; whole days recorded, null where it was drawn. */
  readonly recordedDays: number | null;
  readonly intervalS: number;
  /** Whether the recording was given beside the job, whose own demand may be another. */
  readonly isGiven: boolean;
  readonly sessions: number;
  /** Mean energy of a session. [kWh] */
  readonly kwhPerNight: number;
  /** Share of the sessions that ended full. */
  readonly fullShare: number;
  /** Time over the present supply's limit on the worst line; null for a larger supply. [s] */
  readonly overS: number | null;
  /** Of a load manager: the longest time-out with which its fallback comes in time; null where none is. [s] */
  readonly timeOut?: { readonly mostS: number | null };
}

/** No manager: nothing is ever turned down. [A] */
const NO_LIMIT_A = 10_000;

/**
 * Nights of the options that have a rate; the same days and the same cars for each.
 *
 * @returns Nothing for an option without a rate, and nothing at all when no car comes in these days.
 */
export const optionNights = (
  study: Study,
  site: PlannedSite,
  options: readonly Option[],
  run: NightsRun,
): ReadonlyMap<OptionKind, OptionNights> => finished(runningNights(study, site, options, run));

interface NightsRun {
  readonly building: BuildingSource;
  readonly days: number;
  readonly seed: number;
}

/** The same, day by day. */
export function* runningNights(
  study: Study,
  { plan, habits }: PlannedSite,
  options: readonly Option[],
  run: NightsRun,
): Running<ReadonlyMap<OptionKind, OptionNights>> {
  const rated = options.flatMap(({ kind, chargePointA }) =>
    chargePointA !== null && isKnown(chargePointA) ? [[kind, planOf(kind, plan, chargePointA)] as const] : [],
  );
  const outcomes = yield* running({ ...run, habits, plans: rated.map(([, planned]) => planned) });
  const { kind: source, days, intervalS, isGiven = false } = run.building;
  const basis = { recordedDays: source === "recorded" ? days : null, intervalS, isGiven };
  return new Map(
    rated.flatMap(([kind], index) => {
      const counted = nightsOf(outcomes[index] as SiteOutcome);
      if (counted === null) return [];
      const nights: OptionNights = {
        ...counted,
        ...basis,
        ...(kind === "larger-supply" && { overS: null }),
        ...(kind === "managed" && { timeOut: { mostS: mostTimeOutS(study, plan) } }),
      };
      return [[kind, nights] as const];
    }),
  );
}

function planOf(kind: OptionKind, plan: SitePlan, rate: Quantity & { readonly value: number }): SitePlan {
  const points = plan.points.map((point) => ({ ...point, ratedA: Math.min(point.ratedA, rate.value) }));
  if (kind === "managed") return { ...plan, points };
  return { ...plan, points, control: { ...plan.control, limitA: NO_LIMIT_A, marginA: 0 } };
}

function nightsOf({
  days,
  sessions,
  deliveredKwh,
  fullShare,
  lines,
}: SiteOutcome): Omit<OptionNights, "recordedDays" | "intervalS" | "isGiven" | "timeOut"> | null {
  if (fullShare === null) return null;
  return {
    days,
    sessions: sessions.length,
    kwhPerNight: deliveredKwh / sessions.length,
    fullShare,
    overS: Math.max(...lines.map(({ over }) => over.totalS)),
  };
}
