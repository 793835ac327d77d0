import { type Between, justOver } from "./excursion.ts";
import type { Loss, TraceEvent } from "./trace.ts";

/** What the car did on one line after something was lost. */
export interface FallbackTrial {
  readonly what: Loss;
  readonly atS: number;
  /** Until it was restored, or the trace ends. */
  readonly untilS: number;
  /** Current of the charge points when it was lost; NaN where none was recorded. [A] */
  readonly drawnA: number;
  /** Time to fall to the fallback current, as it may truly have been; null where it never fell. [s] */
  readonly fellS: Between | null;
  /** First value above the fallback after the time-out, when it had already fallen. */
  readonly rose: { readonly atS: number; readonly currentA: number } | null;
  /** Highest after the time-out; NaN where nothing was recorded then. [A] */
  readonly afterA: number;
  readonly outcome: FallbackOutcome;
}

type FallbackOutcome =
  | "held"
  | "late"
  | "never"
  | "rose"
  | "coarse"
  | "short"
  | "not-drawing"
  | "not-recorded";

/**
 * What the car did after a loss: whether it fell to the fallback current in time and stayed there.
 *
 * To stay there is to be watched there as long again as the time-out: a manager that tries anew does so
 * about then. Values further apart than the time-out cannot show that. A car that drew no more than the fallback when it was lost shows nothing.
 *
 * @param trace.carA Current of all governed charge points on the line. [A]
 * @param trace.events All events, in the order of time.
 * @param index Place of the loss among the events.
 * @param allowed.currentA Highest current that counts as the fallback. [A]
 * @param allowed.timeOutS Longest time to fall. [s]
 */
export function fallbackTrial(
  trace: {
    readonly timesS: Float64Array;
    readonly carA: Float64Array | null;
    readonly events: readonly TraceEvent[];
  },
  index: number,
  allowed: { readonly currentA: number; readonly timeOutS: number },
): FallbackTrial {
  const { timesS, carA, events } = trace;
  const { atS, what } = events[index] as TraceEvent & { readonly what: Loss };
  const endS = timesS.at(-1) as number;
  const restoredS = events.slice(index + 1).find((event) => event.what === "restored")?.atS;
  const untilS = restoredS ?? Math.max(endS, atS);
  const threshold = justOver(allowed.currentA);
  const lateS = atS + allowed.timeOutS + 1e-9 * Math.max(1, allowed.timeOutS);
  let drawnA = Number.NaN;
  let [previousS, lastS] = [atS, atS];
  let fellS: Between | null = null;
  let rose: FallbackTrial["rose"] = null;
  let [afterA, seenCount, unseenS] = [Number.NaN, 0, 0];
  for (let i = 0; carA !== null && i < timesS.length; i++) {
    const [timeS, value] = [timesS[i] as number, carA[i] as number];
    if (Number.isNaN(value)) continue;
    if (timeS <= atS || Number.isNaN(drawnA)) drawnA = value;
    if (timeS < atS) continue;
    if (restoredS === undefined ? timeS > untilS : timeS >= untilS) break;
    seenCount++;
    if (fellS !== null) unseenS = Math.max(unseenS, timeS - lastS);
    lastS = timeS;
    const isAbove = value > threshold;
    if (timeS > lateS && !(value <= afterA)) afterA = value;
    if (isAbove && fellS !== null && timeS <= lateS) fellS = null;
    else if (isAbove && fellS !== null) rose ??= { atS: timeS, currentA: value };
    else if (!isAbove) fellS ??= [Math.max(0, previousS - atS), timeS - atS];
    previousS = timeS;
  }
  const outcome = ((): FallbackOutcome => {
    if (carA === null || Number.isNaN(drawnA) || seenCount === 0) return "not-recorded";
    if (!(drawnA > threshold)) return "not-drawing";
    if (fellS === null) return lastS > lateS ? "never" : "short";
    if (atS + fellS[0] > lateS) return "late";
    if (rose !== null) return "rose";
    if (atS + fellS[1] > lateS || atS + unseenS > lateS) return "coarse";
    const settledS = atS + fellS[1];
    return lastS - settledS >= allowed.timeOutS * (1 - 1e-9) ? "held" : "short";
  })();
  return { what, atS, untilS, drawnA, fellS, rose, afterA, outcome };
}
