/**
 * Sharing room among charge points, per line, single- and three-phase points together.
 *
 * A point on three lines takes the same current from each. Whatever the rule, a point gets nothing or at
 * least the least offer: when there is less for each, the points take turns.
 *
 * @module
 */

/** `equal`: the same for all; `max-min`: what one cannot use goes to the others; `first-come`: in order of arrival. */
export type SharingRule = "equal" | "max-min" | "first-come";

/** The charge points that share, as arrays by point. */
export interface Sharers {
  /** Lines of each point: 1 for L1, 2 for L2, 4 for L3, added. */
  readonly lineMask: Uint8Array;
  /** Most each point can offer. [A] */
  readonly maxA: Float64Array;
  /** 1 where a car asks for energy. */
  readonly isAsking: Uint8Array;
  /** Any number that rises with the time of arrival. */
  readonly arrival: Float64Array;
}

export interface SharingTerms {
  readonly rule: SharingRule;
  /** Least current that can be offered. [A] */
  readonly minOfferA: number;
  /** Counts turns; the point that is served first moves on by one with each. */
  readonly turn: number;
}

const LINES = 3;
const lineBit = (line: number): number => 1 << line;

/**
 * Divides the room of each line.
 *
 * @param roomA Room on L1, L2, L3; less than nothing counts as none. [A]
 * @param shareA Filled with the share of each point: 0, or from the least offer to its most. [A]
 */
export function shareRoom(
  roomA: Float64Array,
  sharers: Sharers,
  terms: SharingTerms,
  shareA: Float64Array,
): void {
  const { isAsking } = sharers;
  let [askingCount, only] = [0, 0];
  for (let point = 0; point < isAsking.length; point++) {
    shareA[point] = 0;
    if (isAsking[point] === 1) {
      askingCount++;
      only = point;
    }
  }
  if (askingCount === 0) return;
  if (askingCount === 1) {
    const share = Math.min(leastRoom(roomA, sharers.lineMask[only] as number), sharers.maxA[only] as number);
    shareA[only] = share < terms.minOfferA ? 0 : share;
  } else if (terms.rule === "first-come") firstCome(roomA, sharers, terms, shareA);
  else inTurnsIfNeeded(roomA, sharers, terms, shareA);
}

/** Room on the fullest line of a mask. [A] */
export function leastRoom(roomA: Float64Array, mask: number): number {
  let least = Number.POSITIVE_INFINITY;
  for (let line = 0; line < LINES; line++)
    if (mask & lineBit(line)) least = Math.min(least, roomA[line] as number);
  return least;
}

function take(leftA: Float64Array, mask: number, currentA: number): void {
  for (let line = 0; line < LINES; line++)
    if (mask & lineBit(line)) leftA[line] = (leftA[line] as number) - currentA;
}

const asking = ({ isAsking }: Sharers): number[] =>
  Array.from(isAsking.keys()).filter((point) => isAsking[point] === 1);

function firstCome(
  roomA: Float64Array,
  sharers: Sharers,
  { minOfferA }: SharingTerms,
  shareA: Float64Array,
): void {
  const leftA = roomA.slice();
  const inOrder = asking(sharers).sort(
    (a, b) => (sharers.arrival[a] as number) - (sharers.arrival[b] as number) || a - b,
  );
  for (const point of inOrder) {
    const mask = sharers.lineMask[point] as number;
    const share = Math.min(leastRoom(leftA, mask), sharers.maxA[point] as number);
    if (share < minOfferA) continue;
    shareA[point] = share;
    take(leftA, mask, share);
  }
}

function inTurnsIfNeeded(
  roomA: Float64Array,
  sharers: Sharers,
  terms: SharingTerms,
  shareA: Float64Array,
): void {
  const divide = terms.rule === "equal" ? equalShares : maxMinShares;
  const all = asking(sharers);
  divide(roomA, sharers, all, shareA);
  if (all.every((point) => (shareA[point] as number) >= terms.minOfferA)) return;
  const leftA = roomA.slice();
  const served: number[] = [];
  for (let i = 0; i < all.length; i++) {
    const point = all[(i + terms.turn) % all.length] as number;
    shareA[point] = 0;
    const mask = sharers.lineMask[point] as number;
    if (leastRoom(leftA, mask) < terms.minOfferA) continue;
    take(leftA, mask, terms.minOfferA);
    served.push(point);
  }
  divide(roomA, sharers, served, shareA);
}

/** The same current for every point of a line; what a point cannot use stays unused. */
function equalShares(
  roomA: Float64Array,
  { lineMask, maxA }: Sharers,
  served: readonly number[],
  shareA: Float64Array,
): void {
  const count = new Float64Array(LINES);
  for (const point of served) take(count, lineMask[point] as number, -1);
  for (const point of served) {
    let share = maxA[point] as number;
    for (let line = 0; line < LINES; line++)
      if ((lineMask[point] as number) & lineBit(line))
        share = Math.min(share, (roomA[line] as number) / (count[line] as number));
    shareA[point] = Math.max(0, share);
  }
}

/**
 * Max-min fair shares by progressive filling: all rise together; a point stops at its most, or when a line
 * of it is full. Source: [keshav-1997] section 9.2.1.
 */
function maxMinShares(
  roomA: Float64Array,
  { lineMask, maxA }: Sharers,
  served: readonly number[],
  shareA: Float64Array,
): void {
  const leftA = roomA.map((room) => Math.max(0, room));
  for (const point of served) shareA[point] = 0;
  let rising = [...served];
  while (rising.length > 0) {
    const count = new Float64Array(LINES);
    for (const point of rising) take(count, lineMask[point] as number, -1);
    let rise = Number.POSITIVE_INFINITY;
    for (const point of rising) rise = Math.min(rise, (maxA[point] as number) - (shareA[point] as number));
    for (let line = 0; line < LINES; line++)
      if ((count[line] as number) > 0)
        rise = Math.min(rise, (leftA[line] as number) / (count[line] as number));
    // By the same division as above: whatever set the rise is done, so this ends whatever the rounding.
    const isFull = (line: number) => (leftA[line] as number) / (count[line] as number) <= rise;
    const full = [0, 1, 2].reduce((mask, line) => mask | (isFull(line) ? lineBit(line) : 0), 0);
    const isDone = (point: number) =>
      (maxA[point] as number) - (shareA[point] as number) <= rise ||
      ((lineMask[point] as number) & full) !== 0;
    const done = rising.filter(isDone);
    for (const point of rising) {
      shareA[point] = (shareA[point] as number) + rise;
      take(leftA, lineMask[point] as number, rise);
    }
    rising = rising.filter((point) => !done.includes(point));
  }
}
