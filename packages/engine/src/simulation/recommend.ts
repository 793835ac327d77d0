/**
 * The settings a sweep recommends, why, and what would change that.
 *
 * Safe first: no excursion in these days in which a car drew for longer than usual; the fast edge of the fuse never nearer than half its life; no cable above its limit; and, whatever these days showed, the
 * margin that the metering chain needs, a time-out that outlasts the time between readings, and delays that by
 * themselves allow no excursion longer than usual. Delays that bound nothing, as under the integrating law, are not
 * held against a setting, but it is said, and its days alone speak for it.
 *
 * Of the safe ones those that serve the cars best, within a hundredth of the sessions and a tenth of a kilowatt-hour
 * a session; of those the least time over the limit with a car in it, then the widest margin, the lower limit, the
 * highest fallback and the slowest reading (the quickest, where delays bound nothing), in that order. The thresholds
 * are this project's own ([house-methods]).
 *
 * @module
 */
import { missingPerSessionKwh, overByCarsS, type SiteOutcome, wholeSessionsOf } from "./outcome.ts";
import { planLatency } from "./plan-latency.ts";
import type { SitePlan } from "./site-plan.ts";
import { planWith, type Setting, type SweptSetting } from "./sweep.ts";

export type Refusal =
  | "margin-too-small"
  | "time-out-too-short"
  | "too-slow"
  | "over-too-long"
  | "fuse-too-near"
  | "cable-too-hot";

export interface Recommendation {
  readonly setting: Setting;
  readonly outcome: SiteOutcome;
  /** Whether its delays bound the time over the limit; without a bound its days alone speak for it. */
  readonly isBounded: boolean;
  /** Settings refused, by the first reason that spoke against each. */
  readonly refused: Readonly<Record<Refusal, number>>;
  /** Safe settings that serve the cars less well, and safe ones that serve them as well. */
  readonly worseCount: number;
  readonly equalCount: number;
  /** The next setting to either side in margin, and what it would do. */
  readonly next: readonly SweptSetting[];
}

/** Share of the fuse's life in use at once from which it is too near: own proposal ([house-methods]). */
export const MOST_FUSE_LIFE = 0.5;
const SHARE_WITHIN = 0.01;
const KWH_WITHIN = 0.1;

/** What safety is judged against. */
export interface SafetyTerms {
  /** Longest excursion that is usual. [s] */
  readonly usualS: number;
  /** The same days without any car: what the building does by itself is no setting's fault. */
  readonly withoutCars: SiteOutcome;
}

/** What the settings themselves are judged against. */
export interface SweepTerms extends SafetyTerms {
  readonly plan: SitePlan;
  /** Highest current that may be set, the margin for the metering chain taken off. [A] */
  readonly highestA: number;
}

/** Why a setting is not safe, by what came of it or by itself; null when it is. */
export function settingRefusal({ setting, outcome }: SweptSetting, terms: SweepTerms): Refusal | null {
  const refusal = refusalOf(outcome, terms);
  if (refusal !== null) return refusal;
  if (setting.limitA - setting.marginA > terms.highestA) return "margin-too-small";
  const plan = planWith(terms.plan, setting);
  // Also where nothing is decided between readings: nothing says that commands are repeated meanwhile.
  if (plan.control.readEveryS > plan.control.fallbackAfterS) return "time-out-too-short";
  return (planLatency(plan)?.totalS ?? 0) > terms.usualS ? "too-slow" : null;
}

/** Why what came of a run is not safe; null when it is. */
export function refusalOf(outcome: SiteOutcome, { usualS, withoutCars }: SafetyTerms): Refusal | null {
  if (outcome.excursions.some(({ carS }) => carS > usualS)) return "over-too-long";
  const isNear = outcome.lines.some(({ fuse }, line) => {
    const byBuilding = withoutCars.lines[line]?.fuse?.fast ?? 0;
    return fuse !== null && fuse.fast >= MOST_FUSE_LIFE && fuse.fast > byBuilding;
  });
  if (isNear) return "fuse-too-near";
  const isHot = outcome.bodies.some(
    ({ mostC, limitC }, body) => mostC > Math.max(limitC, withoutCars.bodies[body]?.mostC ?? 0),
  );
  return isHot ? "cable-too-hot" : null;
}

/** What a setting gave the sessions that the last day does not cut short. */
function servedBy(outcome: SiteOutcome): { readonly fullShare: number; readonly missingKwh: number } {
  const sessions = wholeSessionsOf(outcome);
  return {
    fullShare: sessions.filter(({ isFull }) => isFull).length / sessions.length,
    missingKwh: missingPerSessionKwh({ sessions }),
  };
}

/** The recommendation; null when no setting is safe or none of the safe ones lets a car charge, or no car came. */
export function recommend(
  swept: readonly SweptSetting[],
  terms: SweepTerms,
): Recommendation | { readonly setting: null; readonly refused: Recommendation["refused"] } {
  const refused = {
    "margin-too-small": 0,
    "time-out-too-short": 0,
    "too-slow": 0,
    "over-too-long": 0,
    "fuse-too-near": 0,
    "cable-too-hot": 0,
  };
  const safe = swept.filter((one) => {
    const refusal = settingRefusal(one, terms);
    if (refusal !== null) refused[refusal]++;
    return refusal === null;
  });
  const isTried = ({ outcome }: SweptSetting) =>
    wholeSessionsOf(outcome).length > 0 && outcome.deliveredKwh > 0;
  if (!safe.some(isTried)) return { setting: null, refused };
  const served = new Map(safe.map((one) => [one, servedBy(one.outcome)]));
  const shareOf = (one: SweptSetting): number => served.get(one)?.fullShare ?? 0;
  const missingOf = (one: SweptSetting): number => served.get(one)?.missingKwh ?? 0;
  const bestShare = Math.max(...safe.map(shareOf));
  const often = safe.filter((one) => shareOf(one) >= bestShare - SHARE_WITHIN);
  const leastMissing = Math.min(...often.map(missingOf));
  const equal = often.filter((one) => missingOf(one) <= leastMissing + KWH_WITHIN);
  const room = ({ limitA, marginA }: Setting) => limitA - marginA;
  // Of the safe ones, since a time-out that is too short bounds nothing either and is refused for that.
  const [{ setting: anySafe }] = safe as [SweptSetting, ...SweptSetting[]];
  const isBounded = planLatency(planWith(terms.plan, anySafe)) !== null;
  const [best] = equal.toSorted(
    (a, b) =>
      overByCarsS(a.outcome) - overByCarsS(b.outcome) ||
      room(a.setting) - room(b.setting) ||
      a.setting.limitA - b.setting.limitA ||
      (b.setting.fallbackA ?? 0) - (a.setting.fallbackA ?? 0) ||
      (isBounded ? 1 : -1) * (b.setting.readEveryS - a.setting.readEveryS),
  ) as [SweptSetting];
  const alike = swept
    .filter(
      ({ setting }) =>
        setting.limitA === best.setting.limitA &&
        setting.readEveryS === best.setting.readEveryS &&
        setting.fallbackA === best.setting.fallbackA,
    )
    .toSorted((a, b) => room(a.setting) - room(b.setting));
  const lower = alike.findLast(({ setting }) => room(setting) < room(best.setting));
  const higher = alike.find(({ setting }) => room(setting) > room(best.setting));
  return {
    ...best,
    isBounded,
    refused,
    worseCount: safe.length - equal.length,
    equalCount: equal.length,
    next: [lower, higher].filter((item) => item !== undefined),
  };
}
