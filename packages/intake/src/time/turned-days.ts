import type { DateOrder } from "../statements.ts";
import { epochDay, partsOf, YEAR_LAST } from "./written-day.ts";

/** A day as it is written, and the line it stands on. */
export interface DayOnLine {
  readonly packed: number;
  readonly line: number;
}

/** Two days that follow one another in the file, of which one or both can only be written in the other order. */
export interface TurnedDays {
  readonly from: DayOnLine;
  readonly to: DayOnLine;
  /** True where no two days of the file run on in the order taken: all of it is in the other one. */
  readonly isAll: boolean;
}

/**
 * Looks for days written with day and month the other way round, as a spreadsheet leaves them that took
 * 12/02/2026 for the second of December and left 13/02/2026 as it was.
 *
 * Two days that stand next to each other in the file and not in the calendar are turned where they would be
 * neighbours if one or both were read in the other order. A gap is not: a day that runs on from the day on its
 * other side is read as it should be, and so is one that reads alike in both orders.
 *
 * Where days have gaps none stands next to its neighbour. There they are turned where the days run both ways through the
 * file, and at two steps at least one of the days, turned, would fit between its neighbours.
 */
export class TurnedDaysFinder {
  readonly #order: DateOrder;
  readonly #other: DateOrder;
  /** Latest three days, oldest first; a packed day of -1 where there are fewer. */
  #days: readonly [DayOnLine, DayOnLine, DayOnLine] = [NONE, NONE, NONE];
  #found: Omit<TurnedDays, "isAll"> | null = null;
  readonly #onward = newSteps();
  readonly #back = newSteps();
  #runOnCount = 0;

  constructor(order: DateOrder) {
    this.#order = order;
    this.#other = order === "day/month/year" ? "month/day/year" : "day/month/year";
  }

  /** Takes every day of the file that differs from the one before it. */
  take(packed: number, line: number): void {
    if (partsOf(packed).kind !== YEAR_LAST) return;
    this.#step({ packed, line });
  }

  /** The first two days that are turned; null where none are. */
  end(): TurnedDays | null {
    this.#step(NONE);
    const isMixed = this.#back.count > 0 && this.#onward.count > 0;
    const mended = [this.#back, this.#onward].find(({ mendedCount }) => mendedCount >= LEAST_MENDED);
    const found = this.#found ?? (isMixed ? (mended?.first ?? null) : null);
    return found === null ? null : { ...found, isAll: this.#runOnCount === 0 };
  }

  /** Judges the two days before the one that comes: only then both neighbours of each are known. */
  #step(next: DayOnLine): void {
    const [before, from, to] = this.#days;
    this.#days = [from, to, next];
    if (from.packed < 0 || to.packed < 0) return;
    this.#count(before, from, to, next);
    if (this.#runsOn(from.packed, to.packed)) {
      this.#runOnCount++;
      return;
    }
    if (this.#found !== null) return;
    const isFromHeld = this.#runsOn(before.packed, from.packed);
    const isToHeld = this.#runsOn(to.packed, next.packed);
    const [turnedFrom, turnedTo] = [this.#turned(from.packed), this.#turned(to.packed)];
    const asRead = { from: this.#day(from.packed), to: this.#day(to.packed) };
    const isTurned =
      (!isFromHeld && areNeighbours(turnedFrom, asRead.to)) ||
      (!isToHeld && areNeighbours(asRead.from, turnedTo)) ||
      (!isFromHeld && !isToHeld && areNeighbours(turnedFrom, turnedTo));
    if (isTurned) this.#found = { from, to };
  }

  /** Counts a step onward or back, and whether the other order of one of its days fits between that day's neighbours. */
  #count(before: DayOnLine, from: DayOnLine, to: DayOnLine, next: DayOnLine): void {
    const [first, second] = [this.#day(from.packed), this.#day(to.packed)];
    const steps = second > first ? this.#onward : this.#back;
    steps.count++;
    // The way that the step would go if a day were turned: 1 onward, -1 back.
    const way = second > first ? -1 : 1;
    const isBetween = (low: number, day: number, high: number): boolean =>
      !(way * (day - low) <= 0) && !(way * (high - day) <= 0) && !Number.isNaN(day);
    const neighbour = (day: DayOnLine): number => (day.packed < 0 ? Number.NaN : this.#day(day.packed));
    const isMended =
      isBetween(first, this.#turned(to.packed), neighbour(next)) ||
      isBetween(neighbour(before), this.#turned(from.packed), second);
    if (!isMended) return;
    steps.mendedCount++;
    steps.first ??= { from, to };
  }

  #runsOn(first: number, second: number): boolean {
    return first >= 0 && second >= 0 && areNeighbours(this.#day(first), this.#day(second));
  }

  #day(packed: number): number {
    return epochDay(packed, this.#order);
  }

  /** The day in the other order; NaN where it has none there. */
  #turned(packed: number): number {
    const { a, b } = partsOf(packed);
    return a === b ? this.#day(packed) : epochDay(packed, this.#other);
  }
}

/** Steps from day to day in one direction. */
interface Steps {
  count: number;
  mendedCount: number;
  /** The first that the other order of a day would turn about. */
  first: Omit<TurnedDays, "isAll"> | null;
}
const newSteps = (): Steps => ({ count: 0, mendedCount: 0, first: null });
/** One step may be where two recordings were joined. */
const LEAST_MENDED = 2;

const NONE: DayOnLine = { packed: -1, line: 0 };

/** False for a day that the calendar does not have. */
const areNeighbours = (first: number, second: number): boolean => Math.abs(first - second) === 1;
