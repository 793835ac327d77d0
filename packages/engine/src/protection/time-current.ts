/**
 * Time-current bands: between which times a device operates at a given current.
 *
 * The product standards fix a few gates; between gates the edges are drawn straight on a double
 * logarithmic chart. That line is an estimate of this project ([house-methods]), and every result that
 * uses it says so.
 *
 * @module
 */
import type { Device } from "./max-loop-impedance.ts";
import { isMiniatureBreaker } from "./max-loop-impedance.ts";
import type { ProtectionTables } from "./tables.ts";

/** Current [A] and time [s]. */
export type Gate = readonly [currentA: number, timeS: number];

/** Fast edge: never sooner. Slow edge: never later. Currents ascend, times fall. */
export interface TimeCurrentBand {
  readonly fast: readonly Gate[];
  readonly slow: readonly Gate[];
}

const HOUR_S = 3600;

/** Conventional time of a fuse or breaker: one hour up to 63 A, two above. */
export const conventionalTimeS = (ratingA: number): number => (ratingA <= 63 ? HOUR_S : 2 * HOUR_S);

/** The band of a device; null where no gates are printed for it, or its facts are not known. */
export function timeCurrentBand(device: Device, tables: ProtectionTables): TimeCurrentBand | null {
  const { standard, ratingA, curve } = device;
  if (standard.state !== "known" || ratingA.state !== "known") return null;
  const rating = ratingA.value;
  if (isMiniatureBreaker(device)) {
    return curve.state === "known" ? breakerBand(curve.value, rating) : null;
  }
  const gates = tables.fuseGates.rows.find((row) => row.ratingA === rating);
  if (gates === undefined || !tables.fuseGates.standards.includes(standard.value)) return null;
  const conventional = conventionalTimeS(rating);
  return {
    fast: [
      [1.25 * rating, conventional],
      [gates.minAt10s, 10],
      [gates.minAt100ms, 0.1],
      [Math.sqrt(gates.minPreArcingA2s / 0.01), 0.01],
    ],
    slow: [
      [1.6 * rating, conventional],
      [gates.maxAt5s, 5],
      [gates.maxAt100ms, 0.1],
      [Math.sqrt(gates.maxPreArcingA2s / 0.01), 0.01],
    ],
  };
}

/** Multiples of the rating between which the magnetic release acts. Source: [bs-en-60898] Table 2. */
const MAGNETIC = { B: [3, 5], C: [5, 10], D: [10, 20] } as const;

/** Gates of a miniature breaker. Source: [bs-en-60898] tests of Table 7. */
function breakerBand(curve: keyof typeof MAGNETIC, rating: number): TimeCurrentBand {
  const [never, always] = MAGNETIC[curve];
  const conventional = conventionalTimeS(rating);
  const thermalS = rating <= 32 ? 60 : 120;
  return {
    fast: [
      [1.13 * rating, conventional],
      [2.55 * rating, 1],
      [never * rating, 0.1],
      [always * rating, 0],
    ],
    slow: [
      [1.45 * rating, conventional],
      [2.55 * rating, thermalS],
      [always * rating, 0.1],
    ],
  };
}

/**
 * Time on one edge of a band at a current, straight between gates on double logarithmic paper.
 *
 * Below the first gate the device need not operate: Infinity. Beyond the last gate the time of the last
 * gate, which is never sooner than the truth on a slow edge; on a fast edge, 0.
 */
export function timeOnEdge(edge: readonly Gate[], currentA: number, which: "fast" | "slow"): number {
  const first = edge[0];
  const last = edge.at(-1);
  if (first === undefined || last === undefined || currentA < first[0]) return Number.POSITIVE_INFINITY;
  if (currentA >= last[0]) return which === "slow" ? last[1] : currentA === last[0] ? last[1] : 0;
  const after = edge.findIndex(([gateA]) => gateA > currentA);
  const [a, b] = [edge[after - 1] as Gate, edge[after] as Gate];
  if (b[1] === 0) return 0;
  const share = Math.log(currentA / a[0]) / Math.log(b[0] / a[0]);
  return a[1] * (b[1] / a[1]) ** share;
}
