/**
 * Everything that changes while a site runs, in typed arrays made once.
 *
 * @module
 */
import { createManager, type Manager, type ManagerReading } from "../limiter/index.ts";
import { ChangeQueue } from "./change-queue.ts";
import type { PointPlan, SitePlan } from "./site-plan.ts";
import { stepShare } from "./thermal-body.ts";
import { type FaultsNow, noFaults } from "./timed-fault.ts";

/** Delays of the chain in whole steps; a time that is not one is rounded up, a command takes at least one. */
interface Delays {
  readonly average: number;
  readonly read: number;
  /** 0 to decide whenever the meter is read. */
  readonly decide: number;
  readonly command: number;
  readonly fallback: number;
}

/** Charge points and the cars at them, by point. */
interface PointState {
  /** Current the car draws on each of its lines. [A] */
  readonly carA: Float64Array;
  /** What the charge point offers, and what of it the car has noticed. [A] */
  readonly offeredA: Float64Array;
  readonly seenA: Float64Array;
  /** What the manager sent last; NaN while it is off. [A] */
  readonly lastSentA: Float64Array;
  /** What was sent and is not heard yet; NaN for nothing heard from then on. */
  readonly sent: readonly ChangeQueue[];
  /** What is offered and the car has not noticed yet. */
  readonly offered: readonly ChangeQueue[];
  /** Step at which the charge point takes the fallback; Infinity while it hears its manager. */
  readonly fallbackAt: Float64Array;
  /** Step from which the car draws after a pause. */
  readonly drawsFrom: Float64Array;
  readonly mask: Uint8Array;
  readonly onboardA: Float64Array;
  readonly taperKwh: Float64Array;
  /** Most that the current falls and rises in a step. [A] */
  readonly fallA: Float64Array;
  readonly riseA: Float64Array;
  readonly deadSteps: Int32Array;
  readonly resumeSteps: Int32Array;
  /** Energy of one ampere for one step. [kWh] */
  readonly kwhPerA: Float64Array;
  readonly wantedKwh: Float64Array;
  readonly deliveredKwh: Float64Array;
  readonly chargingSteps: Float64Array;
  readonly throttledSteps: Float64Array;
  readonly pausedSteps: Float64Array;
  readonly starts: Float64Array;
}

/** What is counted of the supply, by line. */
interface LineState {
  readonly overSteps: Float64Array;
  readonly overCount: Float64Array;
  /** Length of the excursion that is under way. */
  readonly runSteps: Float64Array;
  readonly runAloneSteps: Float64Array;
  readonly runCarSteps: Float64Array;
  readonly longestSteps: Float64Array;
  /** Steps in which the building by itself was over. */
  readonly aloneSteps: Float64Array;
  /** Steps over the limit in which a car drew from the line. */
  readonly carSteps: Float64Array;
  /** Share of the fuse's life in use at present, on either edge. */
  readonly fast: Float64Array;
  readonly slow: Float64Array;
  readonly minuteSumA: Float64Array;
  readonly minuteCarSumA: Float64Array;
  readonly minuteMostA: Float64Array;
  readonly dayPeakA: Float64Array;
  readonly dayMostA: Float64Array;
  /** Least current of the run: what is sent out is below zero. */
  readonly leastA: Float64Array;
  readonly dayFast: Float64Array;
  readonly daySlow: Float64Array;
  readonly mostFast: Float64Array;
  /** Minute in which the fast edge was nearest, from the start. */
  readonly mostFastMinute: Float64Array;
}

export interface Excursion {
  readonly line: number;
  readonly startS: number;
  readonly lengthS: number;
  /** Time of it in which the building by itself was over. [s] */
  readonly aloneS: number;
  /** Time of it in which a car drew from the line, whether the building by itself was over or not. [s] */
  readonly carS: number;
}

export interface SiteState {
  readonly plan: SitePlan;
  readonly delays: Delays;
  readonly manager: Manager;
  readonly reading: ManagerReading;
  readonly faults: FaultsNow;
  readonly points: PointState;
  readonly lines: LineState;
  /** Current of building and cars on each line in the step last run. [A] */
  readonly buildingA: Float64Array;
  readonly carsA: Float64Array;
  /** Temperatures by body and line: now, and the most there was. [°C] */
  readonly bodyC: Float64Array;
  readonly bodyMostC: Float64Array;
  /** The most there was by the last full minute, and that minute, from the start. */
  readonly bodySeenC: Float64Array;
  readonly bodyMinute: Float64Array;
  /** Share of the way that so many steps go, by body and number of steps, up to a minute. */
  readonly bodyShare: readonly Float64Array[];
  /** What so many steps leave of the fuse's life in use. */
  readonly cooled: Float64Array;
  /** Last totals and cars' currents, as many steps as the meter averages. */
  readonly windowA: Float64Array;
  readonly excursions: Excursion[];
  /** When the reading in hand was taken, by the manager's clock. [s] */
  readAtS: number;
  nextRead: number;
  nextDecide: number;
  /** Since which step the supply and the cars have carried the same. */
  constantSince: number;
  /** Step before which the manager would decide the same again on the same reading. */
  settledUntil: number;
}

/** Whole steps that hold a time. */
export const stepsIn = (timeS: number, stepS: number): number => Math.ceil(timeS / stepS - 1e-9);

const delaysOf = ({ control, stepS }: SitePlan): Delays => ({
  average: Math.max(1, stepsIn(control.averageS, stepS)),
  read: Math.max(1, stepsIn(control.readEveryS, stepS)),
  decide: stepsIn(control.decideEveryS, stepS),
  command: Math.max(1, stepsIn(control.commandS, stepS)),
  fallback: stepsIn(control.fallbackAfterS, stepS),
});

export const maskOf = ({ lines }: Pick<PointPlan, "lines">): number =>
  lines.reduce<number>((mask, line) => mask | (1 << line), 0);

/** What a time makes, for each number of steps that can be taken together: up to a minute. */
const bySteps = ({ stepS }: SitePlan, of: (timeS: number) => number): Float64Array =>
  Float64Array.from({ length: Math.round(60 / stepS) + 1 }, (_, steps) => of(steps * stepS));

export function createSiteState(plan: SitePlan): SiteState {
  const count = plan.points.length;
  const floats = (length = count, value = 0) => new Float64Array(length).fill(value);
  const delays = delaysOf(plan);
  const sharers = {
    lineMask: Uint8Array.from(plan.points, maskOf),
    maxA: Float64Array.from(plan.points, ({ ratedA }) => ratedA),
    isAsking: new Uint8Array(count),
    arrival: floats(),
  };
  const never = Number.NEGATIVE_INFINITY;
  const deadSteps = Math.max(0, ...plan.cars.map(({ response }) => stepsIn(response.deadS, plan.stepS)));
  const queues = (steps: number) => plan.points.map(() => new ChangeQueue(steps + 3));
  return {
    plan,
    delays,
    manager: createManager(plan.control, sharers),
    reading: { totalA: floats(3), carsA: floats(3) },
    faults: noFaults(count),
    points: {
      carA: floats(),
      offeredA: floats(),
      seenA: floats(),
      lastSentA: floats(),
      sent: queues(delays.command),
      offered: queues(deadSteps),
      fallbackAt: floats(count, Number.POSITIVE_INFINITY),
      drawsFrom: floats(),
      mask: new Uint8Array(count),
      onboardA: floats(),
      taperKwh: floats(),
      fallA: floats(),
      riseA: floats(),
      deadSteps: new Int32Array(count),
      resumeSteps: new Int32Array(count),
      kwhPerA: floats(),
      wantedKwh: floats(),
      deliveredKwh: floats(),
      chargingSteps: floats(),
      throttledSteps: floats(),
      pausedSteps: floats(),
      starts: floats(),
    },
    lines: {
      overSteps: floats(3),
      overCount: floats(3),
      runSteps: floats(3),
      runAloneSteps: floats(3),
      runCarSteps: floats(3),
      longestSteps: floats(3),
      aloneSteps: floats(3),
      carSteps: floats(3),
      fast: floats(3),
      slow: floats(3),
      minuteSumA: floats(3),
      minuteCarSumA: floats(3),
      minuteMostA: floats(3, never),
      dayPeakA: floats(3, never),
      dayMostA: floats(3, never),
      leastA: floats(3, Number.POSITIVE_INFINITY),
      dayFast: floats(3),
      daySlow: floats(3),
      mostFast: floats(3),
      mostFastMinute: floats(3, Number.NaN),
    },
    buildingA: floats(3),
    carsA: floats(3),
    bodyC: Float64Array.from(plan.bodies.flatMap(({ ambientC }) => [ambientC, ambientC, ambientC])),
    bodyMostC: floats(3 * plan.bodies.length, never),
    bodySeenC: floats(3 * plan.bodies.length, never),
    bodyMinute: floats(3 * plan.bodies.length, Number.NaN),
    bodyShare: plan.bodies.map(({ tauS }) => bySteps(plan, (timeS) => stepShare(timeS, tauS))),
    cooled: bySteps(plan, (timeS) => (plan.fuse === null ? 1 : Math.exp(-timeS / plan.fuse.coolingS))),
    windowA: floats(delays.average > 1 ? 6 * delays.average : 0),
    excursions: [],
    readAtS: never,
    nextRead: plan.readsLate === true ? delays.read - 1 : 0,
    nextDecide: plan.readsLate === true ? Math.max(0, delays.decide - 1) : 0,
    constantSince: 0,
    settledUntil: 0,
  };
}
