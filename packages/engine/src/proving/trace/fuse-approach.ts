import { type TimeCurrentBand, timeOnEdge } from "../../protection/index.ts";
import type { Between, Excursion } from "./excursion.ts";

/** How near one excursion came to the fast edge of the main fuse's band. */
export interface FuseApproach {
  readonly startS: number;
  readonly rmsA: number;
  readonly heldS: number;
  /** Time on the fast edge at that rms; Infinity where the fuse need never operate. [s] */
  readonly edgeS: number;
  /** Share used of the time on the fast edge: 1 reaches it. Least and most. [1] */
  readonly share: Between;
}

/**
 * How much of the time to the fast edge an excursion used up.
 *
 *     share = max( t / tf(Irms),  Σ Δt / tf(I) )
 *
 * The rms alone would let a short high peak vanish in a long low excursion; the sum alone would pass a
 * current that swings about the first gate. The larger of the two is kept. Cooling between excursions is
 * taken as complete. The edge between gates is an estimate of this project ([house-methods]).
 *
 * @param trace.currentA Current of the line. [A]
 */
export function fuseApproach(
  trace: { readonly timesS: Float64Array; readonly currentA: Float64Array },
  excursion: Excursion,
  { fast }: TimeCurrentBand,
): FuseApproach {
  const { timesS, currentA } = trace;
  const { heldS, lengthS, rmsA, peakA, from, to } = excursion;
  const edgeS = timeOnEdge(fast, rmsA, "fast");
  let sum = 0;
  for (let at = from; at < to; ) {
    let next = at + 1;
    while (next < to && Number.isNaN(currentA[next])) next++;
    sum += shareOf(
      (timesS[Math.min(next, timesS.length - 1)] as number) - (timesS[at] as number),
      timeOnEdge(fast, currentA[at] as number, "fast"),
    );
    at = next;
  }
  const share = Math.max(shareOf(heldS, edgeS), sum);
  const [leastS, mostS] = lengthS;
  return {
    startS: excursion.startS,
    rmsA,
    heldS,
    edgeS,
    share: [
      heldS > 0 && share > 0 ? share * Math.min(1, leastS / heldS) : 0,
      share + shareOf(Math.max(0, mostS - heldS), timeOnEdge(fast, peakA, "fast")),
    ],
  };
}

/** No time uses no share, and an edge that is never reached none either. */
const shareOf = (timeS: number, edgeS: number): number =>
  timeS === 0 || edgeS === Number.POSITIVE_INFINITY ? 0 : timeS / edgeS;
