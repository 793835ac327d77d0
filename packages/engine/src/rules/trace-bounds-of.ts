import { timeCurrentBand } from "../protection/index.ts";
import type { TraceBounds } from "../proving/index.ts";
import { isKnown, type Quantity } from "../worked/index.ts";
import type { Study } from "./study.ts";
import { timeToFallback } from "./time-to-fallback.ts";

/**
 * What a recorded trace is judged against on this job.
 *
 * Where the limit as set was not recorded, the highest that may be set stands in for it: over that is over
 * the limit as well, but under it proves nothing.
 *
 * @param timeOutS Longest time from a loss to the fallback, as given; null to take the job's own time-out. [s]
 */
export function traceBoundsOf(study: Study, timeOutS: number | null): TraceBounds {
  const { job, tree, lines, limit, circuits, figures, knowledge } = study;
  const { overcurrent } = tree.cutOut;
  const governs = job.limiter?.chargePoints ?? [];
  const governed = circuits.filter(({ point }) => governs.includes(point.id));
  return {
    lines,
    limitA: ifKnown(limit),
    isLimitSet: job.limiter?.limitA.state === "known",
    fallbackA: job.limiter?.fallbackA.state === "known" ? job.limiter.fallbackA.value : null,
    pointCount: Object.fromEntries(
      lines.map((line) => [
        line,
        governed.filter(({ point }) => tree.linesAt(point.id).includes(line)).length,
      ]),
    ),
    timeOutS: timeToFallback(study, timeOutS).timeS,
    typicalS: ifKnown(figures("limiterResponseTypicalS")),
    longestS: ifKnown(figures("limiterResponseLongestS")),
    fuseRatingA: overcurrent.ratingA.state === "known" ? overcurrent.ratingA.value : null,
    fuseBand: timeCurrentBand(overcurrent, knowledge.protection),
  };
}

const ifKnown = (quantity: Quantity): number | null => (isKnown(quantity) ? quantity.value : null);
