/**
 * The same site over many seeds: how far what comes of it spreads.
 *
 * @module
 */
import { missingPerSessionKwh, type SiteOutcome } from "./outcome.ts";

/** Middle, and what nine seeds in ten lie between; of fewer than twenty seeds the least and the greatest. */
export interface Spread {
  readonly low: number;
  readonly median: number;
  readonly high: number;
}

export interface OutcomeSpread {
  readonly seeds: number;
  /** Null where no seed brought a car. */
  readonly fullShare: Spread | null;
  readonly missingKwhPerSession: Spread | null;
  readonly kwhPerSession: Spread | null;
  /** Of the worst line. */
  readonly overTotalS: Spread;
  readonly overLongestS: Spread;
  readonly mostA: Spread;
  /** Most of the fuse's life in use, on the fast edge; null where no band is held. */
  readonly fast: Spread | null;
}

/**
 * Quantiles of a sample, straight between its members (the usual definition, number 7 of Hyndman and Fan).
 *
 * @param share From 0 to 1.
 * @returns NaN for an empty sample.
 */
export function quantile(values: readonly number[], share: number): number {
  const sorted = values.toSorted((a, b) => a - b);
  const place = share * (sorted.length - 1);
  const below = sorted[Math.floor(place)];
  const above = sorted[Math.ceil(place)];
  if (below === undefined || above === undefined) return Number.NaN;
  return below + (above - below) * (place - Math.floor(place));
}

/** Of so many values one in twenty is one; of fewer the least and the greatest are told. */
export const ENOUGH_FOR_NINE_IN_TEN = 20;

function spreadOf(values: readonly number[]): Spread {
  const outside = values.length < ENOUGH_FOR_NINE_IN_TEN ? 0 : 0.05;
  return {
    low: quantile(values, outside),
    median: quantile(values, 0.5),
    high: quantile(values, 1 - outside),
  };
}
const orNull = (values: readonly number[]): Spread | null => (values.length === 0 ? null : spreadOf(values));

export function outcomeSpread(outcomes: readonly SiteOutcome[]): OutcomeSpread {
  const withCars = outcomes.filter(({ sessions }) => sessions.length > 0);
  const worst = (of: (line: SiteOutcome["lines"][number]) => number) =>
    spreadOf(outcomes.map(({ lines }) => Math.max(...lines.map(of))));
  const hasFuse = outcomes.every(({ lines }) => lines.every(({ fuse }) => fuse !== null));
  return {
    seeds: outcomes.length,
    fullShare: orNull(withCars.flatMap(({ fullShare }) => (fullShare === null ? [] : [fullShare]))),
    missingKwhPerSession: orNull(withCars.map(missingPerSessionKwh)),
    kwhPerSession: orNull(withCars.map(({ deliveredKwh, sessions }) => deliveredKwh / sessions.length)),
    overTotalS: worst(({ over }) => over.totalS),
    overLongestS: worst(({ over }) => over.longestS),
    mostA: worst(({ mostA }) => mostA),
    fast: hasFuse ? worst(({ fuse }) => fuse?.fast ?? 0) : null,
  };
}
