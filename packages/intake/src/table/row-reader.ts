import type { Notes } from "../notes.ts";
import { ABSENT, QUESTIONABLE, qualityOf, RECORDED } from "../series/quality.ts";
import type { Statements } from "../statements.ts";
import { type DecimalMarks, noMarks, readNumber } from "../text/number-cell.ts";
import { isBlankRow } from "../text/split-row.ts";
import { DateOrderEvidence } from "../time/date-order.ts";
import { NO_OFFSET, readWrittenTime, type WrittenTime } from "../time/time-of-day.ts";
import { readWrittenDay, type WrittenDay } from "../time/written-day.ts";
import type { Layout } from "./layout.ts";
import { RowStore } from "./row-store.ts";

/** Meters that are told apart in one file before the rest is only counted. */
const MAX_METERS = 50;

/** Turns the rows of a table into numbers, and gathers what they show on the way. */
export class RowReader {
  readonly store: RowStore;
  readonly dates = new DateOrderEvidence();
  readonly marks: DecimalMarks;
  /** Meters met, with the line each stood on first. */
  readonly meters = new Map<string, number>();
  /** Units met in a column of units, with the line each stood on first. */
  readonly units = new Map<string, number>();
  /** Rows whose printed total is not the sum of their values. */
  readonly totals = { wrongCount: 0, firstLine: 0, firstPrinted: 0, firstSum: 0, checkedCount: 0 };
  readonly negatives = { count: 0, firstLine: 0, first: 0 };
  readonly #layout: Layout;
  readonly #meter: string | undefined;
  readonly #notes: Notes;
  readonly #day: WrittenDay = { packed: -1, length: 0 };
  readonly #time: WrittenTime = { secondS: 0, offsetMin: NO_OFFSET };
  readonly #unknownQualities = new Map<string, number>();
  #lastDate: string | null = null;

  constructor(layout: Layout, stated: Statements, notes: Notes) {
    this.#layout = layout;
    this.#meter = stated.meter;
    this.marks = noMarks(stated.decimal);
    this.#notes = notes;
    this.store = new RowStore(layout.valuesAt.length);
  }

  read(cells: readonly string[], line: number): void {
    const { headings, valuesAt, valueQualityAt, qualityAt, meterAt, unitAt } = this.#layout;
    if (cells.length !== headings.length && !this.#hasRightCells(cells, line)) return;
    if (meterAt >= 0 && !this.#isWantedMeter((cells[meterAt] ?? "").trim(), line)) return;
    if (!this.#readMoment(cells, line)) return;
    if (unitAt >= 0) this.#note(this.units, cells[unitAt] ?? "", line);
    const rowQuality = qualityAt < 0 ? RECORDED : this.#qualityIn(cells[qualityAt] ?? "", line);
    const piece = this.store.room();
    const row = piece.count++;
    piece.day[row] = this.#day.packed;
    piece.second[row] = this.#time.secondS;
    piece.offsetMin[row] = this.#time.offsetMin;
    piece.line[row] = line;
    const base = row * valuesAt.length;
    for (let index = 0; index < valuesAt.length; index++) {
      const at = valuesAt[index] as number;
      const value = readNumber(cells[at] ?? "", line, this.marks);
      if (value === null) {
        this.#notes.refuse({
          code: "VALUE_UNREADABLE",
          line,
          column: at + 1,
          found: cells[at] ?? "",
          message: "That is no number. Write 0.25, or leave the cell empty where nothing was recorded.",
        });
        piece.values[base + index] = Number.NaN;
        continue;
      }
      piece.values[base + index] = value;
      const own = valueQualityAt[index] as number;
      piece.quality[base + index] = Number.isNaN(value)
        ? ABSENT
        : own < 0
          ? rowQuality
          : this.#qualityIn(cells[own] ?? "", line);
      if (value < 0) {
        if (this.negatives.count++ === 0) Object.assign(this.negatives, { firstLine: line, first: value });
      }
    }
    if (this.#layout.totalAt >= 0)
      this.#checkTotal(cells[this.#layout.totalAt] ?? "", piece.values, base, line);
  }

  /** Says what the rows showed of their qualities. */
  end(): void {
    for (const [word, line] of this.#unknownQualities)
      this.#notes.remark(
        "quality",
        `The quality "${word}", first on line ${line}, is not known: its values are kept and marked questionable.`,
      );
  }

  #hasRightCells(cells: readonly string[], line: number): boolean {
    const { headings } = this.#layout;
    if (isBlankRow(cells)) return false;
    // A delimiter at the end of a row adds an empty cell, and programs leave empty cells at the end away.
    if (cells.length > headings.length && isBlankRow(cells.slice(headings.length))) return true;
    const isShort = cells.length < headings.length;
    if (isShort && this.#layout.wide !== null && cells.length > (this.#layout.wide.at[0] ?? 0)) return true;
    this.#notes.refuse({
      code: "CELL_COUNT",
      line,
      found: `${cells.length} ${cells.length === 1 ? "cell" : "cells"}`,
      message: `The headings are ${headings.length}. ${isShort ? "Complete the row, or remove it if it is no reading." : "If a comma stands in the numbers, part the columns with semicolons, or put the numbers in quotes."}`,
    });
    return false;
  }

  #isWantedMeter(meter: string, line: number): boolean {
    this.#note(this.meters, meter, line);
    return meter === (this.#meter ?? this.meters.keys().next().value);
  }

  #note(met: Map<string, number>, word: string, line: number): void {
    const key = word.trim().slice(0, 60);
    if (!met.has(key) && met.size < MAX_METERS) met.set(key, line);
  }

  /** Reads when the row is, into `#day` and `#time`. */
  #readMoment(cells: readonly string[], line: number): boolean {
    const { dateAt, timeAt, periodAt, wide } = this.#layout;
    const date = cells[dateAt] ?? "";
    if (date !== this.#lastDate) {
      this.#lastDate = null;
      if (isBlankRow(cells)) return false;
      readWrittenDay(date.trimStart(), this.#day);
      if (this.#day.packed < 0) {
        this.#notes.refuse({
          code: "DATE_UNREADABLE",
          line,
          column: dateAt + 1,
          found: date,
          message: "That is no date. Write 2026-11-25 or 25/11/2026, and remove rows that are no readings.",
        });
        return false;
      }
      this.dates.take(this.#day.packed, line, date.trimStart().slice(0, this.#day.length));
    }
    const rest = date.trimStart().slice(this.#day.length);
    if (rest === "" || (wide !== null && /^[T ]?0?0:00(:00)?(\.0+)?Z?\s*$/.test(rest))) {
      this.#lastDate = date;
      this.#time.secondS = 0;
      this.#time.offsetMin = NO_OFFSET;
      if (wide !== null) return true;
      if (timeAt < 0 && periodAt < 0) {
        // Some programs leave the time of midnight away.
        return true;
      }
    } else if (timeAt < 0 && periodAt < 0 && wide === null) {
      readWrittenTime(/^[T ,]/.test(rest) ? rest.slice(1).trim() : "", this.#time);
      return this.#time.secondS >= 0 || this.#refuseTime(date, dateAt, line);
    } else if (timeAt < 0 || !/^[T ]0?0:00(:00)?(\.0+)?\s*$/.test(rest))
      return this.#refuseTime(date, dateAt, line);
    if (periodAt >= 0) return this.#readPeriod(cells[periodAt] ?? "", line);
    const time = cells[timeAt] ?? "";
    readWrittenTime(time, this.#time);
    return this.#time.secondS >= 0 || this.#refuseTime(time, timeAt, line);
  }

  #readPeriod(text: string, line: number): boolean {
    const period = /^\s*\d{1,4}\s*$/.test(text) ? Number(text) : 0;
    this.#time.secondS = period;
    this.#time.offsetMin = NO_OFFSET;
    if (period >= 1 && period <= 1500) return true;
    this.#notes.refuse({
      code: "TIME_UNREADABLE",
      line,
      column: this.#layout.periodAt + 1,
      found: text,
      message:
        "Intervals of a day are numbered from 1. Write the number, or remove the row if it is no reading.",
    });
    return false;
  }

  #refuseTime(found: string, at: number, line: number): false {
    this.#notes.refuse({
      code: "TIME_UNREADABLE",
      line,
      column: at + 1,
      found,
      message: "That is no time of day in whole seconds. Write 00:30 or 00:30:00.",
    });
    return false;
  }

  #qualityIn(word: string, line: number): number {
    const quality = qualityOf(word);
    if (quality !== null) return quality;
    this.#note(this.#unknownQualities, word, line);
    return QUESTIONABLE;
  }

  /** A total printed with d decimals may differ by half its last digit, and each value by half of its own. */
  #checkTotal(text: string, values: Float64Array, base: number, line: number): void {
    const printed = readNumber(text, line, this.marks);
    if (printed === null || Number.isNaN(printed)) return;
    let sum = 0;
    for (let index = 0; index < this.store.width; index++) {
      const value = values[base + index] as number;
      if (!Number.isNaN(value)) sum += value;
    }
    const { totals } = this;
    totals.checkedCount++;
    const decimals = /[.,](\d+)\s*$/.exec(text)?.[1]?.length ?? 0;
    const roundingOfValues = 0.5e-3 * this.store.width;
    if (Math.abs(sum - printed) <= 0.5 * 10 ** -decimals + roundingOfValues) return;
    if (totals.wrongCount++ === 0)
      Object.assign(totals, { firstLine: line, firstPrinted: printed, firstSum: sum });
  }
}
