/**
 * Puts readings where they belong in time, on one grid of UTC.
 *
 * Nothing is moved to where it fits: a reading whose place cannot be told is left out and counted, and one
 * that contradicts another refuses the file.
 *
 * @module
 */
import type { Notes } from "../notes.ts";
import type { Clock } from "../statements.ts";
import type { RowPiece, RowStore } from "../table/row-store.ts";
import { clockOf, isoDay } from "../time/clock.ts";
import { instantsOf, type ZoneOffsets } from "../time/zone.ts";
import { LEFT_OUT } from "./quality.ts";
import type { Timing } from "./timing.ts";

const DAY_MS = 86_400_000;

/** Values on a grid, one channel after another. */
export interface Placed {
  readonly startMs: number;
  readonly channels: readonly {
    readonly values: Float64Array;
    readonly quality: Uint8Array;
    readonly duplicateCount: number;
  }[];
  /** Line of the first reading at a place of the grid; 0 where there is none. */
  readonly lineOf: (slot: number) => number;
}

/** How labelled time becomes UTC. */
export interface Placing {
  readonly timing: Timing;
  /** `utc` too where every time carries its offset. */
  readonly clock: Clock;
  readonly offsets: ZoneOffsets;
  readonly zone: string;
  /** True for a wide table: the values of a row follow one another in time. */
  readonly isWide: boolean;
  /** True where seconds of the store are numbers of intervals. */
  readonly isNumbered: boolean;
  /** Power of ten that turns a number of the file into the unit of the series. */
  readonly powerOfTen: number;
}

/** The place of a reading whose time does not exist, or exists twice. */
const NOWHERE = Number.NaN;

/** Start of a reading after the midnight of its day, as labelled. [ms] */
export function startInDayMs(
  { timing, isWide, isNumbered }: Pick<Placing, "timing" | "isWide" | "isNumbered">,
  second: number,
  column: number,
): number {
  const stepMs = timing.stepS * 1000;
  if (isWide) return column * stepMs + timing.toStartMs;
  if (isNumbered) return (second - 1) * stepMs;
  return (timing.closesDay && second === 0 ? DAY_MS : second * 1000) + timing.toStartMs;
}

export function place(store: RowStore, placing: Placing, notes: Notes): Placed | null {
  const { timing, isWide } = placing;
  const stepMs = timing.stepS * 1000;
  const instants = new Instants(placing);
  const width = isWide ? store.width : 1;
  let [firstMs, lastMs, firstLine] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY, 0];
  // A file that runs backwards is walked from its end: always in order of time.
  const each = (visit: (piece: RowPiece, row: number, column: number, atMs: number) => void): void => {
    instants.restart();
    store.eachRow(timing.isReversed, (piece, row) => {
      for (let column = 0; column < width; column++)
        visit(piece, row, column, instants.of(piece, row, column));
    });
  };
  each((piece, row, column, atMs) => {
    if (
      Number.isNaN(atMs) ||
      (isWide &&
        Number.isNaN(piece.values[row * store.width + column] as number) &&
        column >= DAY_MS / stepMs)
    )
      return;
    if (atMs < firstMs) {
      firstMs = atMs;
      firstLine = piece.line[row] as number;
    }
    if (atMs > lastMs) lastMs = atMs;
  });
  if (firstMs > lastMs) {
    notes.refuse({
      code: "NOTHING_RECORDED",
      line: 0,
      found: "no reading with a place in time",
      message: "Check that this is the recording, and the clock if one was stated.",
    });
    return null;
  }
  const count = (lastMs - firstMs) / stepMs + 1;
  const size = Math.floor(count);
  const channelCount = isWide ? 1 : store.width;
  const channels = Array.from({ length: channelCount }, () => ({
    values: new Float64Array(size).fill(Number.NaN),
    quality: new Uint8Array(size),
    duplicateCount: 0,
  }));
  // Divided rather than multiplied by a fraction: 201 Wh are 0.201 kWh to the last digit.
  const multiply = 10 ** Math.max(0, placing.powerOfTen);
  const divide = 10 ** Math.max(0, -placing.powerOfTen);
  const zero = new LeftOut();
  const noPlace = new LeftOut();
  each((piece, row, column, atMs) => {
    if (notes.isFull) return;
    const line = piece.line[row] as number;
    for (let channelAt = 0; channelAt < channelCount; channelAt++) {
      const cell = row * store.width + (isWide ? column : channelAt);
      const value = ((piece.values[cell] as number) * multiply) / divide;
      if (Number.isNaN(value)) continue;
      if (Number.isNaN(atMs)) {
        if (instants.why === "two places") noPlace.take(line);
        else if (value === 0) zero.take(line);
        else notes.refuse(notThere(instants, placing, line));
        continue;
      }
      const slot = (atMs - firstMs) / stepMs;
      if (!Number.isInteger(slot)) {
        notes.refuse({
          code: "TIME_OFF_GRID",
          line,
          found: new Date(atMs).toISOString(),
          message: `It does not stand on the grid of ${timing.stepS} s that line ${firstLine} begins. Correct the time, or state the length of an interval.`,
        });
        return;
      }
      const channel = channels[channelAt] as (typeof channels)[number];
      const known = channel.values[slot] as number;
      if (Number.isNaN(known)) {
        channel.values[slot] = value;
        channel.quality[slot] = piece.quality[cell] as number;
      } else if (instants.isByEnd && value === 0) zero.take(line);
      else if (known === value) channel.duplicateCount++;
      else notes.refuse(twice(lineAt(each, atMs), line, atMs, [known, value]));
    }
  });
  if (zero.count > 0)
    notes.remark(
      "clock-zeros",
      `${zero.words("zero")}, at a time that the day did not have: written by the clock change or to fill the row, not by the meter, and left out.`,
    );
  if (noPlace.count > 0)
    notes.remark(
      "clock-order",
      `${noPlace.words("reading")}, in an hour that the clock repeats and out of order: left out.`,
    );
  if (placing.clock === "local" && !timing.hasOffsets)
    leaveRepeatedHours({ firstMs, stepMs, channels }, placing.offsets, notes);
  return { startMs: firstMs, channels, lineOf: (slot) => lineAt(each, firstMs + slot * stepMs) };
}

const twice = (firstLine: number, line: number, atMs: number, [known, value]: readonly [number, number]) =>
  ({
    code: "TIME_TWICE",
    line,
    found: `${value} for the interval from ${new Date(atMs).toISOString()}`,
    message: `Line ${firstLine} gives ${known} for it. Remove the one that is wrong.`,
  }) as const;

function notThere({ naiveMs, why }: Instants, { zone, clock }: Placing, line: number) {
  const day = Math.floor(naiveMs / DAY_MS);
  const when = `${clockOf(naiveMs / 1000 - day * 86_400)} on ${isoDay(day)}`;
  return why === "skipped"
    ? ({
        code: "TIME_NOT_THERE",
        line,
        found: when,
        message: `No clock in ${zone} showed that time. If the file is not in local time, state its clock.`,
      } as const)
    : ({
        code: "TIME_NOT_THERE",
        line,
        found: "a value beyond the last interval of the day",
        message: `The day has no interval for ${clock === "periods" ? "it" : when}. Correct the row, or state another clock.`,
      } as const);
}

/** Line of the first reading placed at an instant. */
function lineAt(
  each: (visit: (piece: RowPiece, row: number, column: number, atMs: number) => void) => void,
  wantedMs: number,
): number {
  let line = 0;
  each((piece, row, _column, atMs) => {
    if (line === 0 && atMs === wantedMs) line = piece.line[row] as number;
  });
  return line;
}

class LeftOut {
  count = 0;
  #firstLine = 0;
  take(line: number): void {
    if (this.count++ === 0) this.#firstLine = line;
  }
  words(what: string): string {
    return `${this.count} ${what}${this.count === 1 ? "" : what === "zero" ? "es" : "s"}, first on line ${this.#firstLine}`;
  }
}

/** Start of each reading in UTC, walked in order of time. */
class Instants {
  /** Start as labelled, of the reading last asked for. [ms] */
  naiveMs = 0;
  why: "skipped" | "beyond" | "two places" = "skipped";
  /** True where only the end of the interval is a time that clocks showed. */
  isByEnd = false;
  readonly #placing: Placing;
  readonly #stepMs: number;
  /** Days near a clock change, local: elsewhere one offset holds all day. */
  readonly #nearChange = new Set<number>();
  #previousMs = Number.NaN;
  #day = Number.NaN;
  #dayOffsetMs = 0;
  #nextMidnightMs = 0;

  constructor(placing: Placing) {
    this.#placing = placing;
    this.#stepMs = placing.timing.stepS * 1000;
    for (const { atMs, beforeS } of placing.offsets.changes) {
      const day = Math.floor((atMs + beforeS * 1000) / DAY_MS);
      for (const near of [day - 1, day, day + 1]) this.#nearChange.add(near);
    }
  }

  restart(): void {
    this.#previousMs = Number.NaN;
  }

  /** @returns UTC start of a reading [ms]; NaN where it has none, and `why` says why. */
  of(piece: RowPiece, row: number, column: number): number {
    const { timing, clock, isWide, isNumbered, offsets } = this.#placing;
    const day = piece.day[row] as number;
    const withinMs = startInDayMs(this.#placing, piece.second[row] as number, column);
    const naiveMs = day * DAY_MS + withinMs;
    this.naiveMs = naiveMs;
    this.why = "beyond";
    this.isByEnd = false;
    if (timing.hasOffsets) return naiveMs - (piece.offsetMin[row] as number) * 60_000;
    if (clock === "periods") {
      if (day !== this.#day) this.#enterDay(day);
      const atMs = this.#dayOffsetMs + withinMs;
      return atMs >= this.#nextMidnightMs ? NOWHERE : atMs;
    }
    // A column beyond the 24 hours of a day has a place only where intervals are counted.
    if (withinMs >= DAY_MS && (isWide || isNumbered)) return NOWHERE;
    if (clock === "utc") return naiveMs;
    if (clock === "standard") return naiveMs - offsets.standardOffsetS * 1000;
    const naiveDay = Math.floor(naiveMs / DAY_MS);
    if (this.#nearChange.has(naiveDay)) return this.#walk(naiveMs);
    if (naiveDay !== this.#day) {
      this.#day = naiveDay;
      this.#dayOffsetMs = (instantsOf(offsets, naiveDay * DAY_MS)[0] as number) - naiveDay * DAY_MS;
    }
    this.#previousMs = naiveMs + this.#dayOffsetMs;
    return this.#previousMs;
  }

  /** Near a clock change: the instant that follows the one before, or the only one there is. */
  #walk(naiveMs: number): number {
    const { timing, offsets } = this.#placing;
    const starts = instantsOf(offsets, naiveMs);
    // An end labelled by the clock after the change names an instant of its own.
    const ends =
      timing.toStartMs === 0
        ? []
        : instantsOf(offsets, naiveMs - timing.toStartMs).map((atMs) => atMs + timing.toStartMs);
    const candidates = [...new Set([...starts, ...ends])];
    const following = this.#previousMs + this.#stepMs;
    const [only = NOWHERE] = candidates;
    const atMs = candidates.includes(following) ? following : candidates.length === 1 ? only : NOWHERE;
    this.why = candidates.length > 1 ? "two places" : "skipped";
    this.isByEnd = starts.length === 0;
    // What has no place does not lead to the next one either.
    this.#previousMs = atMs;
    return atMs;
  }

  #enterDay(day: number): void {
    const { offsets } = this.#placing;
    this.#day = day;
    this.#dayOffsetMs = instantsOf(offsets, day * DAY_MS)[0] ?? day * DAY_MS;
    this.#nextMidnightMs = instantsOf(offsets, (day + 1) * DAY_MS)[0] ?? (day + 1) * DAY_MS;
  }
}

/**
 * An hour that the clock repeats, of which the file has only one: two hours' energy, one of the two, or their
 * mean, nobody can say which. It is left out.
 */
function leaveRepeatedHours(
  grid: {
    readonly firstMs: number;
    readonly stepMs: number;
    readonly channels: Placed["channels"];
  },
  offsets: ZoneOffsets,
  notes: Notes,
): void {
  const { firstMs, stepMs, channels } = grid;
  for (const { atMs, beforeS, afterS } of offsets.changes) {
    if (afterS > beforeS) continue;
    const steps = ((beforeS - afterS) * 1000) / stepMs;
    const change = Math.round((atMs - firstMs) / stepMs);
    for (const { values, quality } of channels) {
      let [sum, count] = [0, 0];
      for (let index = change - steps; index < change; index++) {
        const pair = [index, index + steps].filter((slot) => !Number.isNaN(values[slot] ?? Number.NaN));
        if (pair.length !== 1) continue;
        const slot = pair[0] as number;
        sum += values[slot] as number;
        count++;
        values[slot] = Number.NaN;
        quality[slot] = LEFT_OUT;
      }
      if (count === 0) continue;
      const around = [...values.slice(Math.max(0, change - 2 * steps), change + 2 * steps)].filter(
        (value) => !Number.isNaN(value),
      );
      const usual = around.reduce((total, value) => total + value, 0) / around.length;
      const times =
        usual > 0 ? ` They stand at ${(sum / count / usual).toFixed(1)} times the hours beside them.` : "";
      notes.remark(
        "clock-repeat",
        `${count} ${count === 1 ? "reading" : "readings"} of the hour that clocks repeated at ${new Date(atMs).toISOString()} stand once: they may hold both hours, one, or their mean, and are left out.${times}`,
      );
    }
  }
}
