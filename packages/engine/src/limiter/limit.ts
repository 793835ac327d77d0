import { given, type Job, type Located, type LocatedFact } from "../job/index.ts";
import { type Figures, isKnown, type Quantity, smallest, step } from "../worked/index.ts";

export type Limiter = Located<NonNullable<Job["limiter"]>>;
export type LimitFigure = "limiterMarginFloor" | "limiterMarginShare" | "minOffer";

/**
 * Current per line that nothing may lead the site to exceed: the main fuse, or less where the operator
 * agreed to less.
 */
export function supplyLimit(fuseA: LocatedFact<number>, agreedImportA: LocatedFact<number>): Quantity {
  const fuse = given(fuseA, "In");
  if (agreedImportA.state !== "known") return { ...fuse, symbol: "Is" };
  return smallest(
    { symbol: "Is", label: "limit of the supply, per line", unit: "A", clause: "supply-limit" },
    [fuse, given(agreedImportA, "MIL")],
  );
}

/**
 * Room kept under the supply's limit for what the metering chain may misread.
 *
 * As recorded; failing that the larger of an ampere and the metering chain's greatest error at that
 * limit; while that error is not known, a share of the limit, a proposal of this project.
 *
 * @param chainError Greatest error of the metering chain at the limit. [%]
 */
export function limitMargin(
  supply: Quantity,
  limiter: Limiter | null,
  chainError: Quantity,
  figures: Figures<LimitFigure>,
): Quantity {
  if (limiter !== null && limiter.marginA.state === "known") return given(limiter.marginA, "m");
  if (isKnown(chainError)) {
    return step({
      symbol: "m",
      label: "margin under the supply's limit",
      unit: "A",
      clause: "limiter-margin",
      formula: "max(floor, e / 100 * Is)",
      inputs: { floor: figures("limiterMarginFloor"), e: chainError, Is: supply },
      compute: ({ floor, e, Is }) => Math.max(floor, (e / 100) * Is),
    });
  }
  return step({
    symbol: "m",
    label: "margin under the supply's limit",
    unit: "A",
    clause: "limiter-margin",
    formula: "max(floor, share * Is)",
    inputs: { floor: figures("limiterMarginFloor"), share: figures("limiterMarginShare"), Is: supply },
    compute: ({ floor, share, Is }) => Math.max(floor, share * Is),
  });
}

/** Highest limit that may be set: the supply's limit less the margin. */
export const highestLimit = (supply: Quantity, margin: Quantity): Quantity =>
  step({
    symbol: "Ilim",
    label: "highest limit that may be set, per line",
    unit: "A",
    clause: "limiter-limit",
    formula: "Is - m",
    inputs: { Is: supply, m: margin },
    compute: ({ Is, m }) => Is - m,
  });

/**
 * Current the governed charge points together may take when nobody can see the building's demand.
 *
 *     If = Ilim − Irest, and 0 where that is less than a car can be offered
 *
 * @param rest The most the building and everything ungoverned may draw meanwhile. [A]
 */
export const fallbackTotal = (limit: Quantity, rest: Quantity, figures: Figures<LimitFigure>): Quantity =>
  step({
    symbol: "Ifb",
    label: "fallback for all governed charge points together, per line",
    unit: "A",
    clause: "limiter-fallback",
    formula: "Ilim - Irest >= Imin ? Ilim - Irest : 0",
    inputs: { Ilim: limit, Irest: rest, Imin: figures("minOffer") },
    compute: ({ Ilim, Irest, Imin }) => (Ilim - Irest >= Imin ? Ilim - Irest : 0),
  });

/** The limit as set, when it was recorded; otherwise the highest that may be set. */
export const limitInForce = (limiter: Limiter | null, highest: Quantity): Quantity => {
  if (limiter === null) return highest;
  const set = given(limiter.limitA, "Iset");
  return isKnown(set) ? set : highest;
};
