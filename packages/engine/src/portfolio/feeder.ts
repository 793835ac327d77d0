import { DAY_MIN, type DayCurve } from "../demand/index.ts";
import type { NumberOfHomes } from "./street-day.ts";

const HALF_HOUR_MIN = 30;

interface LineSums {
  readonly activeJ: Float64Array;
  readonly reactiveVarS: Float64Array;
}

/**
 * What the lines of a feeder carry in each minute of one day.
 *
 * Everything added is a whole number of joules, and far fewer than 2^53 of them, so the sums are exact and do not
 * depend on the order in which homes are added.
 */
export class Feeder {
  readonly #lines: readonly LineSums[];

  constructor(lineCount: number) {
    this.#lines = Array.from({ length: lineCount }, () => ({
      activeJ: new Float64Array(DAY_MIN),
      reactiveVarS: new Float64Array(DAY_MIN),
    }));
  }

  clear(): void {
    for (const { activeJ, reactiveVarS } of this.#lines) {
      activeJ.fill(0);
      reactiveVarS.fill(0);
    }
  }

  /**
   * Adds one home to the line it hangs on: homes are put on the lines in turn.
   *
   * @param home Number of the home, from 0.
   * @param carJ Energy of its car in each minute, at a power factor of 1. [J]
   * @param limitVa The home's own limit. [VA]
   * @returns Minutes in which the home is above its own limit.
   */
  add(home: number, building: DayCurve, carJ: Int32Array, limitVa: number): number {
    const { activeJ, reactiveVarS } = this.#lines[home % this.#lines.length] as LineSums;
    const limitVaS = limitVa * 60;
    let minutesOver = 0;
    for (let minute = 0; minute < DAY_MIN; minute++) {
      const active = (building.activeJ[minute] as number) + (carJ[minute] as number);
      const reactive = building.reactiveVarS[minute] as number;
      activeJ[minute] = (activeJ[minute] as number) + active;
      reactiveVarS[minute] = (reactiveVarS[minute] as number) + reactive;
      // The two parts added are no less than the whole: most minutes are settled without their squares.
      if (active + reactive > limitVaS && active * active + reactive * reactive > limitVaS * limitVaS)
        minutesOver++;
    }
    return minutesOver;
  }

  /** Energy of all lines in one minute. [J, whole] */
  energyJ(minute: number): number {
    let energyJ = 0;
    for (const { activeJ } of this.#lines) energyJ += activeJ[minute] as number;
    return energyJ;
  }

  /** How high the homes added so far rise together. */
  peak(homes: number): NumberOfHomes {
    let [minuteJ, halfHourJ, inHalfHourJ] = [0, 0, 0];
    for (let minute = 0; minute < DAY_MIN; minute++) {
      const energyJ = this.energyJ(minute);
      inHalfHourJ += energyJ;
      if (energyJ > minuteJ) minuteJ = energyJ;
      if (minute % HALF_HOUR_MIN !== HALF_HOUR_MIN - 1) continue;
      if (inHalfHourJ > halfHourJ) halfHourJ = inHalfHourJ;
      inHalfHourJ = 0;
    }
    return { homes, minuteJ, halfHourJ };
  }

  /** Highest current of any line, when it came, and the minutes in which some line was above a limit. */
  fullestLine(
    voltageV: number,
    limitA: number | null,
  ): { readonly lineA: number; readonly minute: number; readonly minutesOver: number } {
    let [highest, at, minutesOver] = [0, 0, 0];
    const limitSquared = limitA === null ? Number.POSITIVE_INFINITY : (limitA * voltageV * 60) ** 2;
    for (let minute = 0; minute < DAY_MIN; minute++) {
      let most = 0;
      for (const { activeJ, reactiveVarS } of this.#lines) {
        const [active, reactive] = [activeJ[minute] as number, reactiveVarS[minute] as number];
        most = Math.max(most, active * active + reactive * reactive);
      }
      if (most > limitSquared) minutesOver++;
      if (most <= highest) continue;
      highest = most;
      at = minute;
    }
    return { lineA: Math.sqrt(highest) / 60 / voltageV, minute: at, minutesOver };
  }
}
