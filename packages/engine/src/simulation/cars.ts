/**
 * Charge points hear their manager, and cars follow what they are offered.
 *
 * @module
 */
import { LEAST_PILOT_A } from "../limiter/index.ts";
import type { SiteState } from "./site-state.ts";

/** A car stops when its current has tapered to this share of its most. */
const TAPER_END = 0.05;

/** One step of one charge point and its car. */
export function stepCar(state: SiteState, point: number, step: number): void {
  const { points, manager, faults } = state;
  if (nextHeard(points, point) <= step) hear(state, point, step);
  const { isAsking } = manager.sharers;
  const before = points.carA[point] as number;
  const seenA = points.seenA[point] as number;
  let wantedA = 0;
  if (isAsking[point] === 1) {
    const mostA = mostOf(state, point);
    if (mostA === 0) isAsking[point] = 0;
    else {
      if (faults.isIgnored[point] === 1) wantedA = mostA;
      else if (seenA >= LEAST_PILOT_A && step >= (points.drawsFrom[point] as number))
        wantedA = Math.min(seenA, mostA);
      count(state, point, seenA, mostA, 1);
    }
  }
  const move = wantedA - before;
  const fall = points.fallA[point] as number;
  const rise = points.riseA[point] as number;
  const after = move < -fall ? before - fall : move > rise ? before + rise : wantedA;
  if (after > 0 && before === 0) points.starts[point] = (points.starts[point] as number) + 1;
  points.carA[point] = after;
  draw(state, point, after, 1);
}

/** Most a car takes by itself; 0 when it has what it wants. [A] */
function mostOf({ points }: SiteState, point: number): number {
  const left = (points.wantedKwh[point] as number) - (points.deliveredKwh[point] as number);
  const onboard = points.onboardA[point] as number;
  const taper = points.taperKwh[point] as number;
  if (left <= 0) return 0;
  if (left >= taper) return onboard;
  const most = (onboard * left) / taper;
  return most < TAPER_END * onboard ? 0 : most;
}

/** Turned down is what the manager holds back: a charge point's own rating is none of it. */
function count(
  { points, manager }: SiteState,
  point: number,
  seenA: number,
  mostA: number,
  steps: number,
): void {
  const couldA = Math.min(mostA, manager.sharers.maxA[point] as number);
  if (seenA < LEAST_PILOT_A) points.pausedSteps[point] = (points.pausedSteps[point] as number) + steps;
  else if (seenA < couldA) points.throttledSteps[point] = (points.throttledSteps[point] as number) + steps;
}

function draw({ points }: SiteState, point: number, currentA: number, steps: number): void {
  if (currentA === 0) return;
  points.deliveredKwh[point] =
    (points.deliveredKwh[point] as number) + steps * currentA * (points.kwhPerA[point] as number);
  points.chargingSteps[point] = (points.chargingSteps[point] as number) + steps;
}

/** Step at which a charge point or its car is next told something. */
const nextHeard = (points: SiteState["points"], point: number): number =>
  Math.min(
    points.sent[point]?.nextAt as number,
    points.offered[point]?.nextAt as number,
    points.fallbackAt[point] as number,
  );

/** What was sent arrives; a charge point that hears nothing takes the fallback; its car notices in its own time. */
function hear({ plan, points, delays }: SiteState, point: number, step: number): void {
  const sent = points.sent[point] as (typeof points.sent)[number];
  const offered = points.offered[point] as (typeof points.offered)[number];
  const before = points.offeredA[point] as number;
  while (sent.nextAt <= step) {
    const heardAt = sent.nextAt;
    const value = sent.take();
    if (Number.isNaN(value)) points.fallbackAt[point] = Math.max(heardAt, heardAt - 1 + delays.fallback);
    else {
      points.offeredA[point] = value;
      points.fallbackAt[point] = Number.POSITIVE_INFINITY;
    }
  }
  if ((points.fallbackAt[point] as number) <= step) {
    points.fallbackAt[point] = Number.POSITIVE_INFINITY;
    const { fallbackA } = plan.control;
    if (fallbackA !== null) points.offeredA[point] = Math.min(fallbackA, plan.points[point]?.ratedA ?? 0);
  }
  if (points.offeredA[point] !== before)
    offered.add(step + (points.deadSteps[point] as number), points.offeredA[point] as number);
  while (offered.nextAt <= step) {
    const wasOff = (points.seenA[point] as number) < LEAST_PILOT_A;
    points.seenA[point] = offered.take();
    if (wasOff && (points.seenA[point] as number) >= LEAST_PILOT_A)
      points.drawsFrom[point] = step + (points.resumeSteps[point] as number);
  }
}

/** Steps from `step` on, at most `steps`, through which every car keeps its present current. */
export function steadySteps(state: SiteState, step: number, steps: number): number {
  let least = steps;
  for (let point = 0; point < state.points.carA.length; point++) {
    least = Math.min(least, steadyOf(state, point, step, least));
    if (least === 0) return 0;
  }
  return least;
}

function steadyOf(
  { points, manager, faults }: SiteState,
  point: number,
  step: number,
  steps: number,
): number {
  const current = points.carA[point] as number;
  const until = nextHeard(points, point);
  if (until <= step) return 0;
  const quiet = Math.min(steps, until - step);
  if (manager.sharers.isAsking[point] === 0) return current === 0 ? quiet : 0;
  const left = (points.wantedKwh[point] as number) - (points.deliveredKwh[point] as number);
  const spare = left - (points.taperKwh[point] as number);
  const onboard = points.onboardA[point] as number;
  const seenA = points.seenA[point] as number;
  const isIgnored = faults.isIgnored[point] === 1;
  const isOffered = isIgnored || seenA >= LEAST_PILOT_A;
  const waits = isOffered && !isIgnored ? (points.drawsFrom[point] as number) - step : 0;
  if (spare <= 0) return 0;
  if (!isOffered || waits > 0) return current !== 0 ? 0 : isOffered ? Math.min(quiet, waits) : quiet;
  if (current !== (isIgnored ? onboard : Math.min(seenA, onboard))) return 0;
  // One step less than the energy allows: the step in which the car fills, or begins to taper, is run by itself.
  const fills = Math.floor(spare / (current * (points.kwhPerA[point] as number))) - 1;
  return Math.max(0, Math.min(quiet, fills));
}

/** Runs steps in which every car keeps its present current. */
export function holdCars(state: SiteState, steps: number): void {
  const { points, manager } = state;
  for (let point = 0; point < points.carA.length; point++) {
    if (manager.sharers.isAsking[point] === 0) continue;
    count(state, point, points.seenA[point] as number, points.onboardA[point] as number, steps);
    draw(state, point, points.carA[point] as number, steps);
  }
}
