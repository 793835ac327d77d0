/**
 * Puts readings where they belong in time, on one grid of UTC.
 *
 * Nothing is moved to where it fits: a reading whose place cannot be told is left out and counted, and one
 * that contradicts another refuses the file.
 *
 * @module
 */
import type { Notes } from "../notes.ts";
import type { RowPiece, RowStore } from "../table/row-store.ts";
import { clockOf, isoDay } from "../time/clock.ts";
import { Instants, type Placing } from "./instants.ts";
import type { Placed } from "./placed.ts";
import { leaveRepeatedHours } from "./repeated-hours.ts";

const DAY_MS = 86_400_000;

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
