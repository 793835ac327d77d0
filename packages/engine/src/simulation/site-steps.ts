/**
 * A site through a span in which the building draws the same and nobody comes or goes.
 *
 * Within a step, in this order: charge points hear what was sent and cars move; the supply carries building
 * and cars, fuse and cables age and warm; the meter is read; the manager decides and sends. Steps in which
 * nothing can change are taken together: the currents are constant, and fuse, cables and energy follow closed
 * forms. The model is written out step by step in docs/simulation-model.md and repeated there by independent
 * programs, which take every step by itself.
 *
 * @module
 */
import { decideBlind, decideOffers } from "../limiter/index.ts";
import { holdCars, steadySteps, stepCar } from "./cars.ts";
import { keepForAverage, readMeter } from "./meter.ts";
import { type SiteState, stepsIn } from "./site-state.ts";
import { carry } from "./supply-lines.ts";

/** Runs the steps from `from` up to, not including, `until`. The building's currents stand in the state. */
export function runSteps(state: SiteState, from: number, until: number): void {
  let step = from;
  while (step < until) {
    const undisturbed = stepsUndisturbed(state, step, until);
    const steps = undisturbed > 1 ? steadySteps(state, step, undisturbed) : 1;
    if (steps > 1) holdCars(state, steps);
    else {
      for (let point = 0; point < state.points.carA.length; point++) stepCar(state, point, step);
      addCars(state, step);
    }
    const taken = Math.max(1, steps);
    carry(state, step, taken);
    govern(state, step, taken);
    step += taken;
  }
}

/** Steps that can be taken before the manager might send something new; at least one. */
function stepsUndisturbed(state: SiteState, step: number, until: number): number {
  const { delays, nextRead, nextDecide } = state;
  const atRest = Math.min(until, restsUntil(state, step)) - step;
  if (atRest > 0) return atRest;
  const next = delays.decide === 0 ? nextRead : Math.min(nextRead, nextDecide);
  return Math.max(1, Math.min(until, next + 1) - step);
}

/** Step before which the reading cannot change, nor what is decided on it; or nobody asks and nothing is offered. */
function restsUntil({ manager, faults, settledUntil }: SiteState, step: number): number {
  if (faults.isReadingLost || faults.isManagerOff) return step;
  if (settledUntil > step) return settledUntil;
  for (let point = 0; point < manager.offerA.length; point++)
    if (manager.sharers.isAsking[point] === 1 || manager.offerA[point] !== 0) return step;
  return Number.POSITIVE_INFINITY;
}

/** Adds the cars up by line after they moved. */
export function addCars(state: SiteState, step: number): void {
  const { points, carsA } = state;
  let car0A = 0;
  let car1A = 0;
  let car2A = 0;
  for (let point = 0; point < points.carA.length; point++) {
    const current = points.carA[point] as number;
    const mask = points.mask[point] as number;
    if (mask & 1) car0A += current;
    if (mask & 2) car1A += current;
    if (mask & 4) car2A += current;
  }
  if (carsA[0] === car0A && carsA[1] === car1A && carsA[2] === car2A) return;
  carsA[0] = car0A;
  carsA[1] = car1A;
  carsA[2] = car2A;
  markChanged(state, step);
}

/** From this step on the meter sees something else. */
export function markChanged(state: SiteState, step: number): void {
  state.constantSince = step;
  state.settledUntil = 0;
}

/** Reading and deciding at the end of a step, or of the last of several taken together in which it is due. */
function govern(state: SiteState, step: number, steps: number): void {
  const { delays } = state;
  const last = step + steps - 1;
  const isRead = last >= state.nextRead;
  if (isRead) {
    const at = last - ((last - state.nextRead) % delays.read);
    state.nextRead = at + delays.read;
    keepForAverage(state, step, at + 1 - step);
    readMeter(state, at);
    keepForAverage(state, at + 1, last - at);
  } else keepForAverage(state, step, steps);
  if (delays.decide === 0) {
    if (isRead) manage(state, state.nextRead - delays.read);
  } else if (last >= state.nextDecide) {
    const at = last - ((last - state.nextDecide) % delays.decide);
    state.nextDecide = at + delays.decide;
    manage(state, at);
  }
}

function manage(state: SiteState, step: number): void {
  const { manager, faults, plan, delays } = state;
  if (faults.isManagerOff) return;
  const nowS = step * plan.stepS + faults.clockS;
  const ageS = nowS - state.readAtS;
  if (ageS > 0 && ageS >= plan.control.fallbackAfterS) {
    decideBlind(manager, nowS);
    state.settledUntil = 0;
  } else {
    const wasRead = state.nextRead - delays.read >= state.constantSince + delays.average - 1;
    // A time-out shorter than the time between readings goes off with nothing wrong.
    const staysFresh = (delays.read - 1) * plan.stepS < plan.control.fallbackAfterS;
    const sameUntilS = decideOffers(manager, state.reading, nowS);
    state.settledUntil = wasRead && staysFresh ? stepsIn(sameUntilS - faults.clockS, plan.stepS) : 0;
  }
  for (let point = 0; point < manager.offerA.length; point++)
    send(state, point, manager.offerA[point] as number, step);
}

/** Sends an offer on its way, if it is not what was sent last. */
export function send({ points, delays }: SiteState, point: number, offerA: number, step: number): void {
  if (Object.is(points.lastSentA[point], offerA)) return;
  points.lastSentA[point] = offerA;
  points.sent[point]?.add(step + delays.command, offerA);
}
