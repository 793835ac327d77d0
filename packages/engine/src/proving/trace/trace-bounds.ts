import type { TimeCurrentBand } from "../../protection/index.ts";
import type { Line } from "../../quantities/index.ts";

/** What a trace is judged against. Null is not known. */
export interface TraceBounds {
  /** Lines of the supply. */
  readonly lines: readonly Line[];
  /** Limit per line. [A] */
  readonly limitA: number | null;
  /** Whether that limit is the one set, read back; otherwise it is the highest that may be set. */
  readonly isLimitSet: boolean;
  /** Fallback current of one charge point per line. [A] */
  readonly fallbackA: number | null;
  /** Governed charge points that draw on each line. */
  readonly pointCount: Readonly<Partial<Record<Line, number>>>;
  /** Longest time from a loss to the fallback. [s] */
  readonly timeOutS: number | null;
  /** What the operator expects, and the longest allowed, from going over the limit to being back. [s] */
  readonly typicalS: number | null;
  readonly longestS: number | null;
  /** Rating of the main fuse. [A] */
  readonly fuseRatingA: number | null;
  /** Its time-current band; null where none is held. */
  readonly fuseBand: TimeCurrentBand | null;
}
