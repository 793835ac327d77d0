/**
 * One decision of a load manager: from a reading to the current each charge point may offer.
 *
 * No clock: time comes in as `nowS`, and the same inputs give the same offers, so a night is replayed in
 * milliseconds. State is in typed arrays that a decision changes in place; nothing is allocated for a
 * single charge point.
 *
 * @module
 */
import type { ControlSettings } from "./control.ts";
import { leastRoom, type Sharers, shareRoom } from "./sharing.ts";

/** What the manager knows of the supply at one time: meter and charge points sampled together. */
export interface ManagerReading {
  /** Current of the supply on L1, L2, L3 as the meter shows it. [A] */
  readonly totalA: Float64Array;
  /** Current of all governed charge points on L1, L2, L3. [A] */
  readonly carsA: Float64Array;
}

export interface Manager {
  readonly settings: ControlSettings;
  readonly sharers: Sharers;
  /** Current each point may offer; 0 while it pauses. [A] */
  readonly offerA: Float64Array;
  /** Since when there has been room for more; NaN while there is none. [s] */
  readonly roomSinceS: Float64Array;
  /** Since when each point pauses. [s] */
  readonly pausedSinceS: Float64Array;
  /** 1 for a point that pauses because its lines had less room than the least offer; not by its turn. */
  readonly wasFull: Uint8Array;
  readonly roomA: Float64Array;
  readonly shareA: Float64Array;
}

export function createManager(settings: ControlSettings, sharers: Sharers): Manager {
  const count = sharers.lineMask.length;
  const manager = {
    settings,
    sharers,
    offerA: new Float64Array(count),
    roomSinceS: new Float64Array(count),
    pausedSinceS: new Float64Array(count),
    wasFull: new Uint8Array(count),
    roomA: new Float64Array(3),
    shareA: new Float64Array(count),
  };
  restartManager(manager);
  return manager;
}

/** Everything is forgotten: all points pause, and have for as long as need be. */
export function restartManager({ offerA, roomSinceS, pausedSinceS, wasFull }: Manager): void {
  offerA.fill(0);
  roomSinceS.fill(Number.NaN);
  pausedSinceS.fill(Number.NEGATIVE_INFINITY);
  wasFull.fill(0);
}

/**
 * Decides on a reading.
 *
 *     direct       room = limit − margin − (total − cars)
 *     integrating  room = min(offers, cars + step) + gain · (limit − margin − total)
 *
 * An offer falls at once to what the share of the room allows; it rises after room has lasted; a pause
 * ends when it was long enough and there has been room for long enough: room to spare where it began for want of
 * room, and just enough where it is a turn that ends it, or a car has only come. Under the integrating law
 * an offer is carried no further above what the cars take than one step, or it would wind up; while nothing is
 * offered on a line its gain is 1, or a pause would end only with several times the room it needs.
 *
 * @param nowS Time by the manager's own clock. [s]
 * @returns Time by the manager's clock before which the same reading leads to the same offers: `nowS` when
 *   they have just changed, Infinity when nothing is waited for. [s]
 */
export function decideOffers(manager: Manager, reading: ManagerReading, nowS: number): number {
  const { settings, sharers, roomA, shareA } = manager;
  const setA = settings.limitA - settings.marginA;
  if (settings.law.kind === "direct")
    for (let line = 0; line < 3; line++)
      roomA[line] = setA - ((reading.totalA[line] as number) - (reading.carsA[line] as number));
  else integratedRoom(manager, reading, settings.law.gain);
  shareRoom(
    roomA,
    sharers,
    { rule: settings.sharing, minOfferA: settings.minOfferA, turn: turnAt(settings, nowS) },
    shareA,
  );
  let isChanged = false;
  for (let point = 0; point < shareA.length; point++) {
    const before = manager.offerA[point];
    moveOffer(manager, point, nowS);
    if (manager.offerA[point] !== before) isChanged = true;
  }
  return isChanged ? nowS : sameUntilS(manager, nowS);
}

/** When what is waited for may be over: room that has to last, a pause, or a turn. [s] */
function sameUntilS(manager: Manager, nowS: number): number {
  const { settings, offerA, roomSinceS, pausedSinceS } = manager;
  let untilS = isAmple(manager) ? Number.POSITIVE_INFINITY : nextTurnS(settings, nowS);
  for (let point = 0; point < offerA.length; point++) {
    const sinceS = roomSinceS[point] as number;
    if (Number.isNaN(sinceS)) continue;
    const readyS =
      offerA[point] === 0
        ? Math.max(sinceS + settings.resumeHoldS, (pausedSinceS[point] as number) + settings.minimumOffS)
        : sinceS + settings.riseHoldS;
    untilS = Math.min(untilS, readyS);
  }
  return Math.max(untilS, nowS);
}

/** Whether nobody takes turns: one point is alone, or every one that asks has at least the least offer. */
function isAmple({ sharers, shareA, settings }: Manager): boolean {
  if (shareA.length === 1) return true;
  for (let point = 0; point < shareA.length; point++)
    if (sharers.isAsking[point] === 1 && (shareA[point] as number) < settings.minOfferA) return false;
  return true;
}

const turnAt = ({ turnS }: ControlSettings, nowS: number): number => Math.max(0, Math.floor(nowS / turnS));
const nextTurnS = (settings: ControlSettings, nowS: number): number =>
  (turnAt(settings, nowS) + 1) * settings.turnS;

function integratedRoom(
  { settings, sharers, offerA, roomA }: Manager,
  reading: ManagerReading,
  gain: number,
): void {
  for (let line = 0; line < 3; line++) {
    let offered = 0;
    for (let point = 0; point < offerA.length; point++)
      if ((sharers.lineMask[point] as number) & (1 << line)) offered += offerA[point] as number;
    const windUpA = (reading.carsA[line] as number) + Math.max(settings.minOfferA, settings.offerStepA);
    const error = settings.limitA - settings.marginA - (reading.totalA[line] as number);
    // With nothing offered nothing can swing, and a share of the room might never reach the least offer.
    roomA[line] = Math.min(offered, windUpA) + (offered === 0 ? 1 : gain) * error;
  }
}

function moveOffer(manager: Manager, point: number, nowS: number): void {
  const { settings, sharers, offerA, roomSinceS, pausedSinceS, wasFull, roomA, shareA } = manager;
  const { offerStepA, minOfferA } = settings;
  const whole = Math.floor((shareA[point] as number) / offerStepA + 1e-9) * offerStepA;
  const wantedA = whole < minOfferA ? 0 : whole;
  const offer = offerA[point] as number;
  if (offer === 0) {
    const isSpare = () =>
      leastRoom(roomA, sharers.lineMask[point] as number) >= minOfferA + settings.resumeExtraA;
    if (wantedA === 0 || (wasFull[point] === 1 && !isSpare())) {
      roomSinceS[point] = Number.NaN;
      return;
    }
    const since = Number.isNaN(roomSinceS[point]) ? nowS : (roomSinceS[point] as number);
    roomSinceS[point] = since;
    if (nowS - since < settings.resumeHoldS) return;
    if (nowS - (pausedSinceS[point] as number) < settings.minimumOffS) return;
    offerA[point] = wantedA;
    roomSinceS[point] = Number.NaN;
  } else if (wantedA <= offer) {
    offerA[point] = wantedA;
    roomSinceS[point] = Number.NaN;
    if (wantedA > 0) return;
    pausedSinceS[point] = nowS;
    wasFull[point] = leastRoom(roomA, sharers.lineMask[point] as number) < minOfferA ? 1 : 0;
  } else {
    const since = Number.isNaN(roomSinceS[point]) ? nowS : (roomSinceS[point] as number);
    roomSinceS[point] = since;
    if (nowS - since >= settings.riseHoldS) offerA[point] = Math.min(wantedA, offer + settings.riseStepA);
  }
}

/** What the manager does when its reading is too old: the fallback on every point, or the last offer held. */
export function decideBlind(
  { settings, sharers, offerA, roomSinceS, pausedSinceS, wasFull }: Manager,
  nowS: number,
): void {
  const { fallbackA, minOfferA, offerStepA } = settings;
  roomSinceS.fill(Number.NaN);
  if (fallbackA === null) return;
  for (let point = 0; point < offerA.length; point++) {
    const cappedA = Math.min(fallbackA, sharers.maxA[point] as number);
    const whole = Math.floor(cappedA / offerStepA + 1e-9) * offerStepA;
    const wantedA = whole < minOfferA || sharers.isAsking[point] === 0 ? 0 : whole;
    if (wantedA === 0 && (offerA[point] as number) > 0) {
      pausedSinceS[point] = nowS;
      wasFull[point] = 0;
    }
    offerA[point] = wantedA;
  }
}
