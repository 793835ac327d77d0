import type { MinuteWatcher } from "./site-run.ts";

/** Minutes in one period of a recorded week, and periods in a week. */
const PERIOD_MIN = 10;
const PERIODS = (7 * 1440) / PERIOD_MIN;
export const WEEK_PERIOD_S = PERIOD_MIN * 60;

/** One line of a week: means and highest of each period; NaN for what had not been run yet. [A] */
export interface WeekOfLine {
  readonly supplyMeanA: Float64Array;
  readonly supplyMostA: Float64Array;
  readonly carMeanA: Float64Array;
  readonly carMostA: Float64Array;
}

export interface RecordedWeek {
  /** Counted from the first day of the run. */
  readonly firstDay: number;
  readonly lines: readonly WeekOfLine[];
  /** The highest current of the week. */
  readonly most: { readonly currentA: number; readonly line: number; readonly period: number };
}

/**
 * Keeps the week of a run in which the supply carried most, and no other.
 *
 * Weeks are counted from the first day of the run. The cars' highest is that of their minute means.
 */
export class WeekRecorder {
  #minute = 0;
  #current: RecordedWeek;
  #best: RecordedWeek | null = null;
  readonly #lineCount: number;

  constructor(lineCount: number) {
    this.#lineCount = lineCount;
    this.#current = emptyWeek(0, lineCount);
  }

  /** To be told of every minute of one run. */
  readonly watch: MinuteWatcher = ({ sumA, carSumA, mostA, steps }) => {
    const period = Math.floor(this.#minute / PERIOD_MIN) % PERIODS;
    const isFirst = this.#minute % PERIOD_MIN === 0;
    if (period === 0 && isFirst && this.#minute > 0) this.#endWeek();
    for (let line = 0; line < this.#lineCount; line++) {
      const week = this.#current.lines[line] as WeekOfLine;
      const carA = (carSumA[line] as number) / steps;
      add(week.supplyMeanA, period, (sumA[line] as number) / steps / PERIOD_MIN, isFirst);
      add(week.carMeanA, period, carA / PERIOD_MIN, isFirst);
      most(week.supplyMostA, period, mostA[line] as number, isFirst);
      most(week.carMostA, period, carA, isFirst);
      if ((mostA[line] as number) > this.#current.most.currentA)
        this.#current = { ...this.#current, most: { currentA: mostA[line] as number, line, period } };
    }
    this.#minute++;
  };

  /** The week in which the supply carried most; the one under way counts as far as it goes. */
  get best(): RecordedWeek {
    const best = this.#best;
    return best === null || this.#current.most.currentA > best.most.currentA ? this.#current : best;
  }

  #endWeek(): void {
    this.#best = this.best;
    this.#current = emptyWeek(this.#minute / 1440, this.#lineCount);
  }
}

function emptyWeek(firstDay: number, lineCount: number): RecordedWeek {
  const periods = () => new Float64Array(PERIODS).fill(Number.NaN);
  return {
    firstDay,
    lines: Array.from({ length: lineCount }, () => ({
      supplyMeanA: periods(),
      supplyMostA: periods(),
      carMeanA: periods(),
      carMostA: periods(),
    })),
    most: { currentA: Number.NEGATIVE_INFINITY, line: 0, period: 0 },
  };
}

function add(into: Float64Array, at: number, value: number, isFirst: boolean): void {
  into[at] = isFirst ? value : (into[at] as number) + value;
}

function most(into: Float64Array, at: number, value: number, isFirst: boolean): void {
  into[at] = isFirst ? value : Math.max(into[at] as number, value);
}
