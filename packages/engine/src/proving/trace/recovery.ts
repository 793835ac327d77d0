import type { Between, Excursion } from "./excursion.ts";
import type { TraceEvent } from "./trace.ts";

/** From going over the limit to coming back under it for good: one excursion, or several close together. */
export interface Recovery {
  readonly startS: number;
  readonly backS: number;
  /** Time over the limit until it was kept. [s] */
  readonly lengthS: Between;
  readonly excursions: readonly Excursion[];
  /** The last thing noted before it was over, since the recovery before. */
  readonly after: TraceEvent | null;
  /** From that note until back under; null where nothing was noted. [s] */
  readonly sinceEventS: number | null;
  readonly withoutCarS: number;
  readonly beganBefore: boolean;
  readonly isUnfinished: boolean;
}

/**
 * Excursions taken together where the limit was not kept in between.
 *
 * A load manager that lets go as soon as it is under, and is over again at once, has not come back under:
 * only a stay below the limit of the settling time ends a recovery.
 *
 * @param settleS Shortest time under the limit that counts as kept. [s], 0 or more
 */
export function recoveriesOf(
  excursions: readonly Excursion[],
  events: readonly TraceEvent[],
  settleS: number,
): readonly Recovery[] {
  const groups: Excursion[][] = [];
  for (const excursion of excursions) {
    const group = groups.at(-1);
    const before = group?.at(-1);
    if (group === undefined || before === undefined || excursion.startS - before.backS >= settleS)
      groups.push([excursion]);
    else group.push(excursion);
  }
  let [next, endedS] = [0, Number.NEGATIVE_INFINITY];
  return groups.map((group) => {
    const [first, last] = [group[0] as Excursion, group.at(-1) as Excursion];
    let after: TraceEvent | null = null;
    for (; next < events.length && (events[next] as TraceEvent).atS < last.backS; next++)
      if ((events[next] as TraceEvent).atS >= endedS) after = events[next] as TraceEvent;
    endedS = last.backS;
    const gone = last.startS - first.startS;
    return {
      startS: first.startS,
      backS: last.backS,
      lengthS: [
        gone + last.lengthS[0],
        last.isUnfinished
          ? Number.POSITIVE_INFINITY
          : last.backS - first.startS + (first.lengthS[1] - first.heldS),
      ],
      excursions: group,
      after,
      sinceEventS: after === null || last.isUnfinished ? null : last.backS - after.atS,
      withoutCarS: group.reduce((sum, { withoutCarS }) => sum + withoutCarS, 0),
      beganBefore: first.beganBefore,
      isUnfinished: last.isUnfinished,
    };
  });
}
