/**
 * Discrimination: whether a device nearer the load clears a fault before the one ahead of it is harmed.
 *
 * Three tests, each only as far as figures exist:
 *
 * 1. *Overload*: up to the current at which the fast edge of the device ahead reaches 0.1 s, the slow edge of
 *    the device below must lie under it. Edges between printed gates are this project's estimate.
 * 2. *Short circuit, breaker below a fuse*: the energy the breaker lets through must be less than the
 *    energy at which the fuse begins to melt.
 * 3. *Fuse below a fuse*: ratings of one kind in the ratio 1.6 or more discriminate.
 *
 * Where no figures exist the answer is that it cannot be told.
 *
 * @module
 */
import { type Device, isMiniatureBreaker } from "./max-loop-impedance.ts";
import type { ProtectionTables } from "./tables.ts";
import { type Gate, timeCurrentBand, timeOnEdge } from "./time-current.ts";

export type Discrimination =
  /** Up to the greatest fault current here. */
  | { readonly state: "full" }
  /** Up to a current; above it the device ahead may operate as well. */
  | { readonly state: "partial"; readonly upToA: number; readonly because: "energy" | "energy-not-published" }
  /** Already in overload the device ahead may operate first. */
  | { readonly state: "none"; readonly atA: number }
  /** No figures for one of the devices. */
  | { readonly state: "cannot-tell"; readonly which: "below" | "ahead" };

/** Ratio of gG ratings from which fuses discriminate. Source: makers' technical notes, as [house-methods] says. */
const FUSE_RATIO = 1.6;

/** @param greatestFaultA Prospective current at the device below. [A] */
export function discrimination(
  below: Device,
  ahead: Device,
  greatestFaultA: number,
  tables: ProtectionTables,
): Discrimination {
  const [belowBand, aheadBand] = [timeCurrentBand(below, tables), timeCurrentBand(ahead, tables)];
  if (belowBand === null) return { state: "cannot-tell", which: "below" };
  if (aheadBand === null) return { state: "cannot-tell", which: "ahead" };
  const isBelowBreaker = isMiniatureBreaker(below);
  if (!isBelowBreaker && !isMiniatureBreaker(ahead)) {
    const ratio = ratingOf(ahead) / ratingOf(below);
    return ratio >= FUSE_RATIO ? { state: "full" } : { state: "none", atA: 1.25 * ratingOf(ahead) };
  }
  const fastEnd = aheadBand.fast.findLast(([, timeS]) => timeS >= 0.1)?.[0] ?? 0;
  const overloadEnd = Math.min(fastEnd, greatestFaultA);
  const atA = overtaken(belowBand.slow, aheadBand.fast, overloadEnd);
  if (atA !== null) return { state: "none", atA };
  if (greatestFaultA <= fastEnd) return { state: "full" };
  const lets = letThroughA2s(below, tables);
  const melts = tables.fuseGates.rows.find((row) => row.ratingA === ratingOf(ahead))?.minPreArcingA2s;
  if (lets === undefined || melts === undefined || isMiniatureBreaker(ahead)) {
    return { state: "partial", upToA: fastEnd, because: "energy-not-published" };
  }
  return lets < melts ? { state: "full" } : { state: "partial", upToA: fastEnd, because: "energy" };
}

/**
 * The least current below `endA` at which the slow edge of the device below reaches the fast edge of the one ahead;
 * null when it stays under it. Both edges are straight between gates on double logarithmic paper, so the gates of
 * both tell.
 */
function overtaken(slow: readonly Gate[], fast: readonly Gate[], endA: number): number | null {
  const firstA = slow[0]?.[0] ?? 0;
  if (endA <= firstA) return null;
  const gates = [...slow, ...fast].map(([currentA]) => currentA).filter((currentA) => currentA > firstA);
  const currents = [firstA, ...gates.filter((currentA) => currentA < endA), endA].sort((a, b) => a - b);
  let [before, gapBefore] = [firstA, Number.NEGATIVE_INFINITY];
  for (const currentA of currents) {
    const gap = Math.log(timeOnEdge(slow, currentA, "slow") / timeOnEdge(fast, currentA, "fast"));
    if (currentA < endA ? gap >= 0 : gap > 0) {
      const share = gapBefore === Number.NEGATIVE_INFINITY ? 1 : gapBefore / (gapBefore - gap);
      return before * (currentA / before) ** share;
    }
    [before, gapBefore] = [currentA, gap];
  }
  return null;
}

/** Greatest energy a breaker lets through at its breaking capacity; undefined where none is printed. */
export function letThroughA2s(device: Device, tables: ProtectionTables): number | undefined {
  const { curve, ratingA, breakingCapacityKa } = device;
  if (!isMiniatureBreaker(device)) return undefined;
  if (curve.state !== "known" || ratingA.state !== "known" || breakingCapacityKa.state !== "known")
    return undefined;
  return tables.letThrough.rows.find(
    (row) =>
      row.curve === curve.value &&
      row.breakingCapacityKa === breakingCapacityKa.value &&
      ratingA.value <= row.upToA,
  )?.energyA2s;
}

const ratingOf = (device: Device): number =>
  device.ratingA.state === "known" ? device.ratingA.value : Number.NaN;
