/**
 * A site through time, one day after another: cars come and go, faults begin and end, and it is counted.
 *
 * @module
 */
import { requireControl, restartManager } from "../limiter/index.ts";
import { EngineError } from "../quantities/index.ts";
import type { Session, SitePlan } from "./site-plan.ts";
import { createSiteState, maskOf, type SiteState, stepsIn } from "./site-state.ts";
import { addCars, markChanged, runSteps, send } from "./site-steps.ts";
import { endExcursion } from "./supply-lines.ts";
import { faultsAt } from "./timed-fault.ts";

const DAY_S = 86_400;

export interface SessionResult extends Session {
  readonly deliveredKwh: number;
  /** Whether the car had what it wanted and stopped by itself. */
  readonly isFull: boolean;
  /** How long another car kept it from its charge point. [s] */
  readonly waitedS: number;
}

/** What one day left behind, by line. */
export interface DayRecord {
  /** Highest mean of a minute, and highest current of a step. [A] */
  readonly peakA: readonly number[];
  readonly mostA: readonly number[];
  /** Most of the fuse's life in use at once: fast edge and slow edge. */
  readonly fast: readonly number[];
  readonly slow: readonly number[];
}

/** Told of every minute once it is over; the arrays are used again for the next. By line. */
export type MinuteWatcher = (minute: {
  /** Sums over the steps of the minute. [A] */
  readonly sumA: Float64Array;
  readonly carSumA: Float64Array;
  readonly mostA: Float64Array;
  readonly steps: number;
}) => void;

export interface SiteRun {
  readonly state: SiteState;
  readonly results: SessionResult[];
  readonly days: DayRecord[];
  /** Sessions still to come, by point, in the order of time. */
  readonly queues: readonly Session[][];
  readonly present: (Session | null)[];
  /** When the car that is present found its charge point free, by point. [s] */
  readonly beganS: number[];
  arrivals: number;
  nextEvent: number;
  nextFault: number;
  /** Steps of building current nobody recorded; the current before them was held. */
  absentSteps: number;
}

/** @throws EngineError OUT_OF_DOMAIN when a setting leaves its range or the step does not divide a minute. */
export function createSiteRun(plan: SitePlan): SiteRun {
  requireControl(plan.control);
  if (!Number.isInteger(60 / plan.stepS))
    throw new EngineError(
      "OUT_OF_DOMAIN",
      `stepS is ${plan.stepS}; a minute must hold a whole number of steps. Take 1, 0.5 or 0.1.`,
      { name: "stepS" },
    );
  return {
    state: createSiteState(plan),
    results: [],
    days: [],
    queues: plan.points.map(() => []),
    present: plan.points.map(() => null),
    beganS: plan.points.map(() => 0),
    arrivals: 0,
    nextEvent: 0,
    nextFault: 0,
    absentSteps: 0,
  };
}

/** Adds sessions, in any order; those that begin on a day must be added before that day is run. */
export function addSessions(run: SiteRun, sessions: readonly Session[]): void {
  const { state, queues } = run;
  for (const session of sessions) queues[state.plan.cars[session.car]?.point as number]?.push(session);
  for (const queue of queues) queue.sort((a, b) => a.startS - b.startS || a.untilS - b.untilS);
  run.nextEvent = Math.min(run.nextEvent, nextEventOf(run));
}

/**
 * Runs the day after the last one run.
 *
 * @param buildingA Current of the building alone: for each interval of the day its lines, one after another;
 *   NaN where nobody recorded it. [A]
 */
export function runDay(run: SiteRun, buildingA: Float64Array, watch?: MinuteWatcher): void {
  const { state } = run;
  const { stepS, lineCount } = state.plan;
  const intervals = buildingA.length / lineCount;
  const intervalSteps = DAY_S / stepS / intervals;
  if (!Number.isInteger(intervalSteps))
    throw new EngineError(
      "OUT_OF_DOMAIN",
      `A day of ${intervals} intervals does not hold a whole number of steps of ${stepS} s in each. Take another step.`,
      { name: "buildingA", value: intervals },
    );
  const minuteSteps = 60 / stepS;
  const dayStart = (run.days.length * DAY_S) / stepS;
  let step = dayStart;
  for (let interval = 0; interval < intervals; interval++) {
    holdBuilding(run, buildingA, interval, intervalSteps, step);
    const end = dayStart + (interval + 1) * intervalSteps;
    while (step < end) {
      if (step >= run.nextEvent) handleEvents(run, step);
      const until = Math.min(end, step - (step % minuteSteps) + minuteSteps, run.nextEvent);
      runSteps(state, step, until);
      step = until;
      if (step % minuteSteps === 0) endMinute(state, step / minuteSteps - 1, minuteSteps, watch);
    }
  }
  endDay(run);
}

/**
 * Ends what is under way: sessions and excursions that reach beyond the last day are told as far as it goes, and a
 * session that still waits for its charge point has delivered nothing. What is counted of them the outcome decides.
 */
export function finishRun(run: SiteRun): void {
  const { state, present, queues, results } = run;
  const endS = run.days.length * DAY_S;
  const step = endS / state.plan.stepS;
  for (let point = 0; point < present.length; point++) {
    leave(run, point);
    for (const session of queues[point] as Session[])
      if (session.startS < endS) results.push(neverBegun(session));
  }
  for (let line = 0; line < 3; line++)
    if ((state.lines.runSteps[line] as number) > 0) endExcursion(state, line, step);
}

function holdBuilding(
  run: SiteRun,
  dayA: Float64Array,
  interval: number,
  intervalSteps: number,
  step: number,
): void {
  const { state } = run;
  const { lineCount } = state.plan;
  let isAbsent = false;
  let isChanged = false;
  for (let line = 0; line < lineCount; line++) {
    const current = dayA[interval * lineCount + line] as number;
    if (Number.isNaN(current)) isAbsent = true;
    else if (current !== state.buildingA[line]) {
      state.buildingA[line] = current;
      isChanged = true;
    }
  }
  if (isAbsent) run.absentSteps += intervalSteps;
  if (isChanged) markChanged(state, step);
}

function endMinute(
  { lines, plan, bodyMostC, bodySeenC, bodyMinute }: SiteState,
  minute: number,
  steps: number,
  watch: MinuteWatcher | undefined,
): void {
  watch?.({ sumA: lines.minuteSumA, carSumA: lines.minuteCarSumA, mostA: lines.minuteMostA, steps });
  for (let line = 0; line < plan.lineCount; line++) {
    const meanA = (lines.minuteSumA[line] as number) / steps;
    const mostA = lines.minuteMostA[line] as number;
    const fast = lines.dayFast[line] as number;
    if (meanA > (lines.dayPeakA[line] as number)) lines.dayPeakA[line] = meanA;
    if (mostA > (lines.dayMostA[line] as number)) lines.dayMostA[line] = mostA;
    const before = lines.mostFast[line] as number;
    if (fast > before) {
      lines.mostFast[line] = fast;
      // From then on the fuse may be gone: the first moment counts.
      if (before < 1) lines.mostFastMinute[line] = minute;
    }
    lines.minuteSumA[line] = 0;
    lines.minuteCarSumA[line] = 0;
    lines.minuteMostA[line] = Number.NEGATIVE_INFINITY;
  }
  for (let at = 0; at < bodyMostC.length; at++)
    if ((bodyMostC[at] as number) > (bodySeenC[at] as number)) {
      bodySeenC[at] = bodyMostC[at] as number;
      bodyMinute[at] = minute;
    }
}

function endDay({ state: { lines, plan }, days }: SiteRun): void {
  const byLine = (values: Float64Array) => Array.from(values.subarray(0, plan.lineCount));
  days.push({
    peakA: byLine(lines.dayPeakA),
    mostA: byLine(lines.dayMostA),
    fast: byLine(lines.dayFast),
    slow: byLine(lines.daySlow),
  });
  lines.dayPeakA.fill(Number.NEGATIVE_INFINITY);
  lines.dayMostA.fill(Number.NEGATIVE_INFINITY);
  lines.dayFast.set(lines.fast);
  lines.daySlow.set(lines.slow);
}

/** Cars that come and go, faults that begin and end. */
function handleEvents(run: SiteRun, step: number): void {
  const { state, queues, present } = run;
  const { stepS } = state.plan;
  for (let point = 0; point < present.length; point++) {
    const session = present[point];
    if (session && step >= stepsIn(session.untilS, stepS)) {
      leave(run, point);
      addCars(state, step);
    }
    const queue = queues[point] as Session[];
    while (present[point] === null && queue[0] !== undefined && step >= stepsIn(queue[0].startS, stepS)) {
      const next = queue.shift() as Session;
      if (step < stepsIn(next.untilS, stepS)) arrive(run, point, next, step);
      else run.results.push(neverBegun(next));
    }
  }
  if (step >= run.nextFault) changeFaults(run, step);
  run.nextEvent = nextEventOf(run);
}

const neverBegun = (session: Session): SessionResult => ({
  ...session,
  deliveredKwh: 0,
  isFull: false,
  waitedS: session.untilS - session.startS,
});

function changeFaults(run: SiteRun, step: number): void {
  const { state } = run;
  const { plan, faults, manager } = state;
  const wasOff = faults.isManagerOff;
  run.nextFault = stepsIn(faultsAt(plan.faults, step * plan.stepS, faults), plan.stepS);
  markChanged(state, step);
  if (wasOff === faults.isManagerOff) return;
  restartManager(manager);
  for (let point = 0; point < manager.offerA.length; point++)
    send(state, point, faults.isManagerOff ? Number.NaN : 0, step);
}

/** Step at which a car comes or goes, or a fault begins or ends, next. */
function nextEventOf({ state, queues, present, nextFault }: SiteRun): number {
  let next = nextFault;
  for (let point = 0; point < present.length; point++) {
    const atS = present[point]?.untilS ?? queues[point]?.[0]?.startS ?? Number.POSITIVE_INFINITY;
    next = Math.min(next, stepsIn(atS, state.plan.stepS));
  }
  return next;
}

function arrive(run: SiteRun, point: number, session: Session, step: number): void {
  const { plan, points, manager } = run.state;
  const car = plan.cars[session.car] as (typeof plan.cars)[number];
  const { lines } = plan.points[point] as (typeof plan.points)[number];
  const drawnFrom = lines.slice(0, car.lineCount);
  const { response } = car;
  run.present[point] = session;
  run.beganS[point] = Math.max(session.startS, step * plan.stepS);
  points.mask[point] = maskOf({ lines: drawnFrom });
  points.onboardA[point] = car.onboardA;
  points.taperKwh[point] = car.taperKwh;
  points.fallA[point] = response.fallAPerS * plan.stepS;
  points.riseA[point] = response.riseAPerS * plan.stepS;
  points.deadSteps[point] = stepsIn(response.deadS, plan.stepS);
  points.resumeSteps[point] = stepsIn(response.resumeS, plan.stepS);
  points.kwhPerA[point] = (plan.voltageV * drawnFrom.length * plan.stepS) / 3.6e6;
  points.wantedKwh[point] = session.wantedKwh;
  points.deliveredKwh[point] = 0;
  points.offered[point]?.clear();
  points.seenA[point] = points.offeredA[point] as number;
  points.drawsFrom[point] = step + (points.resumeSteps[point] as number);
  manager.sharers.lineMask[point] = points.mask[point] as number;
  manager.sharers.isAsking[point] = 1;
  manager.wasFull[point] = 0;
  manager.sharers.arrival[point] = run.arrivals++;
  run.state.settledUntil = 0;
}

/** A car that comes between two steps is heard at the next: that is no waiting. */
const waitOf = ({ startS }: Session, beganS: number, stepS: number): number =>
  beganS - startS < stepS ? 0 : beganS - startS;

/** The car is unplugged: its current ends at once. */
function leave({ state, results, present, beganS }: SiteRun, point: number): void {
  const session = present[point];
  if (!session) return;
  results.push({
    ...session,
    deliveredKwh: state.points.deliveredKwh[point] as number,
    isFull: state.manager.sharers.isAsking[point] === 0,
    waitedS: waitOf(session, beganS[point] as number, state.plan.stepS),
  });
  present[point] = null;
  state.points.carA[point] = 0;
  state.manager.sharers.isAsking[point] = 0;
  // Even where it drew nothing there is more for the others now.
  state.settledUntil = 0;
}
