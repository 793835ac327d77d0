/**
 * What came of a run: for the car, for the supply, for fuse and cables.
 *
 * @module
 */
import type { DayRecord, SessionResult, SiteRun } from "./site-run.ts";
import type { Excursion } from "./site-state.ts";

export interface LineOutcome {
  /** Time over the supply's limit. */
  readonly over: {
    readonly count: number;
    readonly totalS: number;
    readonly longestS: number;
    /** Of the total, what the building alone was over: no load manager can help that. */
    readonly aloneS: number;
    /** Of the total, while a car drew from the line: that is the load manager's to end. */
    readonly carS: number;
  };
  /** Highest current of a step. [A] */
  readonly mostA: number;
  /** Highest current of a step that was sent out; 0 where none was. [A] */
  readonly mostOutA: number;
  /** Most of the fuse's life in use at once; null where no band is held for it. */
  readonly fuse: {
    /** 1: it may have operated. */
    readonly fast: number;
    /** 1: it has. */
    readonly slow: number;
    /** Minute of the run in which the fast edge was first reached, or was nearest; null when never at its first gate. */
    readonly minute: number | null;
  } | null;
}

export interface BodyOutcome {
  readonly id: string;
  readonly line: number;
  readonly mostC: number;
  readonly limitC: number;
  readonly minute: number | null;
}

export interface SiteOutcome {
  readonly days: number;
  /** Sessions that ended, or were full, before the last day was over. */
  readonly sessions: readonly SessionResult[];
  /**
   * Sessions that the last day cut short: how they would have ended is not known. No figure of sessions or energy
   * counts them; the hours and the starts below do.
   */
  readonly cutShort: number;
  /** By the sessions. [kWh] */
  readonly deliveredKwh: number;
  readonly missingKwh: number;
  /** Share of the sessions that ended with what was wanted; null without sessions. */
  readonly fullShare: number | null;
  /** While a car asked for energy. [h] */
  readonly chargingH: number;
  readonly throttledH: number;
  readonly pausedH: number;
  readonly starts: number;
  readonly lines: readonly LineOutcome[];
  readonly bodies: readonly BodyOutcome[];
  readonly excursions: readonly Excursion[];
  readonly dayRecords: readonly DayRecord[];
  /** Building current that nobody recorded and the run had to hold. [h] */
  readonly absentH: number;
}

const DAY_S = 86_400;

/** Energy that was wanted and did not come; none for a car that stopped by itself. [kWh] */
export const missingOf = ({ wantedKwh, deliveredKwh, isFull }: SessionResult): number =>
  isFull ? 0 : Math.max(0, wantedKwh - deliveredKwh);

/**
 * Sessions that were over before the last day was: the same ones whatever was set. One that the last day cuts short
 * counts in an outcome only where its car was full by then.
 */
export const wholeSessionsOf = ({ sessions, days }: SiteOutcome): readonly SessionResult[] =>
  sessions.filter(({ untilS }) => untilS <= days * DAY_S);

/** Mean of what sessions lack; 0 without sessions. [kWh] */
export const missingPerSessionKwh = ({ sessions }: Pick<SiteOutcome, "sessions">): number =>
  sessions.length === 0 ? 0 : sum(sessions.map(missingOf)) / sessions.length;

/** Time over the supply's limit with a car drawing, on the worst line. [s] */
export const overByCarsS = ({ lines }: SiteOutcome): number =>
  Math.max(0, ...lines.map(({ over }) => over.carS));

/** Reads a finished run. */
export function outcomeOf(run: SiteRun): SiteOutcome {
  const { state, results, days } = run;
  const endS = days.length * DAY_S;
  const sessions = results.filter(({ isFull, untilS }) => isFull || untilS <= endS);
  const { plan, points, lines } = state;
  const { stepS } = plan;
  const hours = (steps: Float64Array) => (sum(steps) * stepS) / 3600;
  return {
    days: days.length,
    sessions,
    cutShort: results.length - sessions.length,
    deliveredKwh: sum(sessions.map(({ deliveredKwh }) => deliveredKwh)),
    missingKwh: sum(sessions.map(missingOf)),
    fullShare:
      sessions.length === 0 ? null : sessions.filter(({ isFull }) => isFull).length / sessions.length,
    chargingH: hours(points.chargingSteps),
    throttledH: hours(points.throttledSteps),
    pausedH: hours(points.pausedSteps),
    starts: sum(points.starts),
    lines: Array.from({ length: plan.lineCount }, (_, line) => ({
      over: {
        count: lines.overCount[line] as number,
        totalS: (lines.overSteps[line] as number) * stepS,
        longestS: (lines.longestSteps[line] as number) * stepS,
        aloneS: (lines.aloneSteps[line] as number) * stepS,
        carS: (lines.carSteps[line] as number) * stepS,
      },
      mostA: Math.max(...days.map(({ mostA }) => mostA[line] as number)),
      mostOutA: Math.max(0, -(lines.leastA[line] as number)),
      fuse:
        plan.fuse === null
          ? null
          : {
              fast: Math.max(0, ...days.map(({ fast }) => fast[line] as number)),
              slow: Math.max(0, ...days.map(({ slow }) => slow[line] as number)),
              minute: orNull(lines.mostFastMinute[line] as number),
            },
    })),
    bodies: plan.bodies.flatMap(({ id, carries, limitC }, body) =>
      Array.from({ length: carries === "supply" ? plan.lineCount : 1 }, (_, line) => ({
        id,
        line,
        mostC: state.bodyMostC[3 * body + line] as number,
        limitC,
        minute: orNull(state.bodyMinute[3 * body + line] as number),
      })),
    ),
    excursions: state.excursions,
    dayRecords: days,
    absentH: (run.absentSteps * stepS) / 3600,
  };
}

const sum = (values: Iterable<number>): number => {
  let total = 0;
  for (const value of values) total += value;
  return total;
};
const orNull = (value: number): number | null => (Number.isNaN(value) ? null : value);
