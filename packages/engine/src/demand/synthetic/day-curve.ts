export const DAY_MIN = 1440;
export const DAY_S = 86_400;

/**
 * One day of power, minute by minute, gathered from rectangles of time.
 *
 * The day is a circle: what runs past midnight comes back in at its beginning. So no day needs the one before,
 * and the energy of a day is the energy of everything begun in it.
 *
 * Times are whole seconds and powers whole watts, so a minute's energy is a whole number of joules and every
 * sum, in any order, is exact.
 *
 * While rectangles are added the arrays hold differences from minute to minute; `close` turns them into energies.
 */
export class DayCurve {
  /** After `close`: energy of each minute, the first 1440 places. [J] */
  readonly activeJ = new Int32Array(DAY_MIN + 2);
  /** After `close`: reactive energy of each minute, lagging positive. [var·s] */
  readonly reactiveVarS = new Int32Array(DAY_MIN + 2);
  /** Room for the starts of one appliance's uses; a day has no more. [s] */
  readonly startsS = new Float64Array(64);

  /** Begins a day that draws the same power all along. [W, whole] */
  open(powerW: number): void {
    this.activeJ.fill(0);
    this.reactiveVarS.fill(0);
    this.activeJ[0] = powerW * 60;
  }

  /**
   * Adds a constant power from one second to another.
   *
   * @param fromS First second, from midnight. Whole, from 0 and before the day's end
   * @param lengthS How long. Whole, 0 to one day
   */
  add(fromS: number, lengthS: number, powerW: number, reactiveVar: number): void {
    const untilS = fromS + lengthS;
    if (untilS <= DAY_S) {
      this.#addWithin(fromS, untilS, powerW, reactiveVar);
      return;
    }
    this.#addWithin(fromS, DAY_S, powerW, reactiveVar);
    this.#addWithin(0, untilS - DAY_S, powerW, reactiveVar);
  }

  #addWithin(fromS: number, untilS: number, powerW: number, reactiveVar: number): void {
    const first = (fromS / 60) | 0;
    const last = (untilS / 60) | 0;
    const before = fromS - first * 60;
    const within = untilS - last * 60;
    difference(this.activeJ, first, before, last, within, powerW);
    if (reactiveVar !== 0) difference(this.reactiveVarS, first, before, last, within, reactiveVar);
  }

  /** Turns what was added into the energy of each minute. */
  close(): void {
    const { activeJ, reactiveVarS } = this;
    let active = 0;
    let reactive = 0;
    for (let minute = 0; minute < DAY_MIN; minute++) {
      active = (active + (activeJ[minute] as number)) | 0;
      reactive = (reactive + (reactiveVarS[minute] as number)) | 0;
      activeJ[minute] = active;
      reactiveVarS[minute] = reactive;
    }
  }
}

/** Steps up in the first minute by the seconds that remain of it, and the rest in the next; down likewise. */
function difference(
  into: Int32Array,
  first: number,
  before: number,
  last: number,
  within: number,
  power: number,
): void {
  into[first] = (into[first] as number) + power * (60 - before);
  into[first + 1] = (into[first + 1] as number) + power * before;
  into[last] = (into[last] as number) - power * (60 - within);
  into[last + 1] = (into[last + 1] as number) - power * within;
}
