import type { DesignedPlace } from "./designed-place.ts";
import type { PossibleFault } from "./possible-faults.ts";

/**
 * What the design itself misses, as the fault of the catalogue that names it; null where it misses nothing, or
 * where no single fault says it. A part missed is left to what is hidden from any chain.
 */
export function designedFault(
  possible: readonly PossibleFault[],
  places: readonly DesignedPlace[],
): PossibleFault | null {
  const missing = (of: (place: DesignedPlace) => boolean): readonly number[] =>
    places.flatMap((place, c) => (of(place) ? [c + 1] : []));
  const noCar = missing(
    ({ seesChargePoint, seesBuilding }) => seesChargePoint === "none" && seesBuilding !== "none",
  );
  const noBuilding = missing(
    ({ seesChargePoint, seesBuilding }) => seesBuilding === "none" && seesChargePoint !== "none",
  );
  if (noCar.length > 0 === noBuilding.length > 0) return null;
  const is = ({ fault }: PossibleFault): boolean =>
    (fault.id === "F18" && fault.channels.join() === noCar.join()) ||
    (fault.id === "F19" && fault.channels.join() === noBuilding.join());
  return possible.find(is) ?? null;
}

/** Shares of belief in a chain before any reading, by the faults it has. */
export interface Shares {
  readonly sound: number;
  readonly single: (fault: PossibleFault) => number;
  readonly pair: (a: PossibleFault, b: PossibleFault) => number;
}

/**
 * Share of belief in a chain with these faults, where the chain was built as designed: what the design misses is no
 * further fault, and a chain that sees it after all is one change away.
 */
export function shareOf(
  faults: readonly PossibleFault[],
  designed: PossibleFault | null,
  shares: Shares,
): number {
  const { sound, single, pair } = shares;
  const isDesigned = designed !== null && faults.includes(designed);
  const apart = faults.filter((fault) => fault !== designed);
  const changed = designed === null || isDesigned ? apart : [designed, ...apart];
  const [a, b, c] = changed;
  if (a === undefined) return sound;
  if (b === undefined) return single(a);
  return c === undefined ? pair(a, b) : single(a) * pair(b, c);
}
