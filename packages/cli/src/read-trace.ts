/**
 * Reads a trace typed or exported as a table: one moment a row, units in the headings.
 *
 * A file is refused where it would have to be guessed at; what can be left out is left out, counted and
 * said, up to a few rows. Nothing is filled in and nothing is dropped silently.
 *
 * @module
 */
import { LINES, type Line, TRACE_EVENTS, type Trace, type TraceEvent } from "@underfuse/engine";
import { parse } from "csv-parse/sync";

export type TraceResult =
  | { readonly ok: true; readonly trace: Trace; readonly remarks: readonly string[] }
  | { readonly ok: false; readonly message: string };

/** Rows or values that may be left out before the file is refused: three, or one in a thousand. */
const fewOf = (rowCount: number): number => Math.max(3, Math.floor(rowCount / 1000));
/** Largest current that a cell may hold. [A] */
const MAX_A = 100_000;
/** A step this many times the usual one is a gap. */
const GAP = 5;

type Column =
  | { readonly kind: "seconds" | "clock" | "event" | "left-out" }
  | { readonly kind: "current"; readonly of: "supply" | "car"; readonly line: Line };

const tidy = (heading: string): string =>
  heading
    .toLowerCase()
    .replace(/[()[\]_]/g, " ")
    .replace(/\s+/g, " ")
    .trim();

/** The first line of a text and what parts its columns. */
function headingOf(text: string): { readonly line: string; readonly delimiter: string } {
  const start = text.charCodeAt(0) === 0xfeff ? 1 : 0;
  const line = /[^\r\n]+/.exec(text.slice(start, start + 20_000))?.[0] ?? "";
  return { line, delimiter: line.includes(";") ? ";" : line.includes("\t") ? "\t" : "," };
}

/** True where a heading speaks of time: such a table is a trace, any other one is of readings. */
export function isTrace(text: string): boolean {
  const { line, delimiter } = headingOf(text);
  if (/^\s*[{[]/.test(line)) return false;
  return line.split(delimiter).some((heading) => /^time\b/.test(tidy(heading.replaceAll('"', ""))));
}

/** Reads a trace from a table of comma-, semicolon- or tab-separated values. Never throws. */
export function readTrace(text: string): TraceResult {
  const { delimiter } = headingOf(text);
  const reader = new TraceReader();
  try {
    parse(text, {
      bom: true,
      trim: true,
      delimiter,
      skip_empty_lines: true,
      relax_column_count: true,
      // Rows are taken as they come and not kept.
      on_record: (row: string[], { lines }: { lines: number }) => {
        reader.take(row, lines);
        return null;
      },
    });
  } catch (error) {
    return refuse(
      `it is no table of comma-separated values: ${error instanceof Error ? error.message : error}`,
    );
  }
  return reader.result();
}

const refuse = (message: string): TraceResult => ({ ok: false, message });

/** Something left out: how often, and where it stood first. */
interface LeftOut {
  count: number;
  readonly first: string;
}

class TraceReader {
  #columns: readonly Column[] | null = null;
  #headings: readonly string[] = [];
  #refusal: string | null = null;
  readonly #remarks: string[] = [];
  readonly #times: number[] = [];
  readonly #rowLines: number[] = [];
  readonly #currents: number[][] = [];
  readonly #events: TraceEvent[] = [];
  #rowCount = 0;
  #startsS: number | null = null;
  #lastNotedS = Number.NEGATIVE_INFINITY;
  #isZoned: boolean | null = null;
  readonly #leftOut = new Map<string, LeftOut>();
  #emptyCount = 0;

  take(row: readonly string[], line: number): void {
    if (this.#refusal !== null) return;
    if (this.#columns === null) this.#refusal = this.#takeHeadings(row);
    else if (row.some((cell) => cell !== "")) this.#takeRow(this.#columns, row, line);
  }

  result(): TraceResult {
    if (this.#refusal !== null) return refuse(this.#refusal);
    const columns = this.#columns;
    if (columns === null || this.#times.length === 0)
      return refuse(this.#tooMany(true) ?? "it has no row of currents under its headings");
    const tooMany = this.#tooMany(false);
    if (tooMany !== null) return refuse(tooMany);
    const timesS = Float64Array.from(this.#times);
    const currents = (of: "supply" | "car"): Partial<Record<Line, Float64Array>> =>
      Object.fromEntries(
        columns.flatMap((column, index) =>
          column.kind === "current" && column.of === of
            ? [[column.line, Float64Array.from(this.#currents[index] ?? [])]]
            : [],
        ),
      );
    const carA = currents("car");
    return {
      ok: true,
      trace: {
        timesS,
        supplyA: currents("supply"),
        carA: Object.keys(carA).length === 0 ? null : carA,
        events: this.#events,
      },
      remarks: [
        ...this.#remarks,
        ...[...this.#leftOut].map(
          ([what, { count, first }]) =>
            `${count} ${count === 1 ? what.replace(/^(row|value)s/, "$1").replace("that are", "that is") : what}, first at ${first}: left out.`,
        ),
        ...(this.#emptyCount > 0
          ? [
              `${this.#emptyCount} ${this.#emptyCount === 1 ? "cell of current is" : "cells of current are"} empty: taken as not recorded, never as zero.`,
            ]
          : []),
        ...gapRemarks(timesS, this.#rowLines),
      ],
    };
  }

  #takeHeadings(row: readonly string[]): string | null {
    this.#headings = row;
    const columns: Column[] = [];
    for (const [index, heading] of row.entries()) {
      const column = columnOf(tidy(heading));
      if (typeof column === "string") return `line 1, column ${index + 1}, "${heading}": ${column}`;
      const same = columns.findIndex((other) => JSON.stringify(other) === JSON.stringify(column));
      if (same >= 0 && column.kind !== "left-out")
        return `line 1: columns ${same + 1} and ${index + 1} are both "${heading}"; keep one`;
      if (column.kind === "left-out" && heading !== "")
        this.#remarks.push(
          `Column ${index + 1}, "${heading}", is not one of a trace: left out. A trace has ${KNOWN_COLUMNS}.`,
        );
      columns.push(column);
    }
    const clocks = columns.filter(({ kind }) => kind === "seconds" || kind === "clock").length;
    if (clocks !== 1)
      return `it has ${clocks === 0 ? "no column" : "two columns"} of time; give one, "time s" or "time"`;
    if (!columns.some((column) => column.kind === "current" && column.of === "supply"))
      return `it has no current of the supply; a trace has ${KNOWN_COLUMNS}`;
    this.#columns = columns;
    for (const [index, { kind }] of columns.entries()) if (kind === "current") this.#currents[index] = [];
    return null;
  }

  #takeRow(columns: readonly Column[], row: readonly string[], line: number): void {
    this.#rowCount++;
    for (let index = columns.length; index < row.length; index++)
      if (row[index] !== "") {
        this.#refusal = `line ${line} has more cells than there are headings; was a decimal comma used? Write 12.5`;
        return;
      }
    const clock = columns.findIndex(({ kind }) => kind === "seconds" || kind === "clock");
    const timeText = row[clock] ?? "";
    const timeS = this.#timeOf(columns[clock] as Column, timeText, line);
    if (this.#refusal !== null) return;
    const event = this.#eventOf(columns, row, line);
    if (this.#refusal !== null) return;
    const hasCurrent = columns.some(({ kind }, index) => kind === "current" && (row[index] ?? "") !== "");
    if (timeS === null) {
      if (event !== null)
        this.#refusal = `line ${line}: "${event}" has no time that can be read; give it one`;
      else this.#leave("rows without a time that can be read", `line ${line} ("${timeText.slice(0, 40)}")`);
      return;
    }
    this.#startsS ??= timeS;
    const atS = timeS - this.#startsS;
    if (event !== null) {
      if (atS < this.#lastNotedS) {
        this.#refusal = `line ${line}: the clock goes backwards at "${event}", so it cannot be placed; give it its true time`;
        return;
      }
      this.#events.push({ atS, what: event });
    }
    const lastS = this.#times.at(-1) ?? Number.NEGATIVE_INFINITY;
    if (!hasCurrent && event !== null) this.#lastNotedS = atS;
    else if (atS < lastS) this.#leave("rows at which the clock goes backwards", `line ${line}`);
    else if (atS === lastS) this.#leave("rows with the time of the row before", `line ${line}`);
    else {
      this.#times.push(atS);
      this.#rowLines.push(line);
      this.#lastNotedS = Math.max(this.#lastNotedS, atS);
      for (let index = 0; index < columns.length; index++)
        if (columns[index]?.kind === "current")
          this.#currents[index]?.push(this.#currentOf(row[index] ?? "", line, index));
    }
  }

  #timeOf(column: Column, text: string, line: number): number | null {
    if (column.kind === "seconds") return numberOf(text);
    if (text === "") return null;
    const instant = instantOf(text);
    if (instant === null) {
      if (numberOf(text) !== null)
        this.#refusal = `line ${line}, column of time: "${text}" is a number without a unit; head the column "time s" if it counts seconds`;
      return null;
    }
    this.#isZoned ??= instant.isZoned;
    if (this.#isZoned !== instant.isZoned)
      this.#refusal = `line ${line}: some times carry a zone and some do not; write all alike`;
    return instant.timeS;
  }

  #eventOf(columns: readonly Column[], row: readonly string[], line: number): TraceEvent["what"] | null {
    const index = columns.findIndex(({ kind }) => kind === "event");
    const text = row[index] ?? "";
    if (text === "") return null;
    const word = tidy(text).replace(/ /g, "-");
    const what = TRACE_EVENTS.find((name) => name === word);
    if (what === undefined)
      this.#refusal = `line ${line}, column ${index + 1}: "${text.slice(0, 60)}" is no event of a trace; events are ${TRACE_EVENTS.join(", ")}`;
    return what ?? null;
  }

  #currentOf(text: string, line: number, index: number): number {
    if (text === "") {
      this.#emptyCount++;
      return Number.NaN;
    }
    const value = numberOf(text);
    const place = `line ${line}, column ${index + 1}, "${this.#headings[index]}" ("${text.slice(0, 40)}")`;
    if (value === null) {
      this.#leave("values that are not a number", place);
      return Number.NaN;
    }
    if (Math.abs(value) > MAX_A) {
      this.#leave(`values beyond ${MAX_A} A`, place);
      return Number.NaN;
    }
    return value;
  }

  #leave(what: string, first: string): void {
    const known = this.#leftOut.get(what);
    if (known === undefined) this.#leftOut.set(what, { count: 1, first });
    else known.count++;
  }

  /** Why so much would be left out that the file is refused instead; null where it is only a few. */
  #tooMany(anyAtAll: boolean): string | null {
    const few = anyAtAll ? 0 : fewOf(this.#rowCount);
    for (const [what, { count, first }] of this.#leftOut)
      if (count > few)
        return `it has ${count} ${what}, first at ${first}: more than a few, and nothing was judged. ${CURES[what] ?? "Write numbers such as 12.5"}`;
    return null;
  }
}

const CURES: Readonly<Record<string, string>> = {
  "rows at which the clock goes backwards":
    "Record in seconds from the start, or by a clock that is not put back",
  "rows with the time of the row before": "Write times with as many decimals as values come in a second",
  "rows without a time that can be read": 'Write seconds under "time s", or 2026-11-25T10:00:00 under "time"',
};

const KNOWN_COLUMNS = "time s (or time), L1 A, L2 A, L3 A, car L1 A, car L2 A, car L3 A, event";

/** What a tidied heading stands for; or, where it nearly is one of a trace, why it cannot be taken. */
function columnOf(name: string): Column | string {
  if (name === "time s") return { kind: "seconds" };
  if (name === "time") return { kind: "clock" };
  if (name === "event") return { kind: "event" };
  if (/^time\b/.test(name))
    return 'time is written in seconds under "time s", or as date and time, 2026-11-25T10:00:00, under "time"';
  const [, car, line = "", unit] = /^(car )?(l[123])(?: (.*))?$/.exec(name) ?? [];
  if (line === "") {
    return /\bl[123]\b|^car|^event/.test(name)
      ? `it is not known. A trace has ${KNOWN_COLUMNS}`
      : { kind: "left-out" };
  }
  const right = `${car ?? ""}${line.toUpperCase()} A`;
  if (unit === undefined) return `it has no unit; head it "${right}" if it is in amperes`;
  if (unit !== "a") return `a trace is of currents in amperes; convert it and head it "${right}"`;
  return {
    kind: "current",
    of: car === undefined ? "supply" : "car",
    line: LINES.find((known) => known.toLowerCase() === line) as Line,
  };
}

const NUMBER = /^[+-]?(\d+\.?\d*|\.\d+)(e[+-]?\d{1,3})?$/i;

function numberOf(text: string): number | null {
  const value = NUMBER.test(text) ? Number(text) : Number.NaN;
  return Number.isFinite(value) ? value : null;
}

const INSTANT =
  /^(\d{4})-(\d{2})-(\d{2})[T ](\d{2}):(\d{2})(?::(\d{2}(?:\.\d{1,9})?))?(Z|[+-]\d{2}:?\d{2})?$/i;

/** Seconds of an ISO date and time; without a zone it is taken as it stands. */
function instantOf(text: string): { readonly timeS: number; readonly isZoned: boolean } | null {
  const parts = INSTANT.exec(text);
  if (parts === null) return null;
  const [year = 0, month = 0, day = 0, hour = 0, minute = 0, second = 0] = parts
    .slice(1, 7)
    .map((part) => Number(part ?? 0));
  const zone = parts[7];
  const dayMs = Date.UTC(year, month - 1, day);
  const isDay = month >= 1 && month <= 12 && new Date(dayMs).getUTCDate() === day;
  if (!isDay || hour > 23 || minute > 59 || second >= 60) return null;
  const [, sign = "+", zoneHour = "0", zoneMinute = "0"] = /^([+-])(\d{2}):?(\d{2})$/.exec(zone ?? "") ?? [];
  const offsetS = (sign === "-" ? -1 : 1) * (Number(zoneHour) * 3600 + Number(zoneMinute) * 60);
  const timeS = dayMs / 1000 + hour * 3600 + minute * 60 + second - offsetS;
  return { timeS, isZoned: zone !== undefined };
}

/** Steps much longer than the usual one: said, and nothing filled in. */
function gapRemarks(timesS: Float64Array, rowLines: readonly number[]): readonly string[] {
  if (timesS.length < 3) return [];
  const steps = timesS.slice(1).map((timeS, index) => timeS - (timesS[index] as number));
  const usualS = steps.slice().sort()[steps.length >> 1] as number;
  let [count, at] = [0, -1];
  for (const [index, step] of steps.entries()) {
    if (step <= GAP * usualS) continue;
    count++;
    if (at < 0 || step > (steps[at] as number)) at = index;
  }
  if (at < 0) return [];
  const longest = Number((steps[at] as number).toPrecision(6));
  return [
    `${count} ${count === 1 ? "gap" : "gaps"}, the longest ${longest} s after line ${rowLines[at]} (usually ${Number(usualS.toPrecision(6))} s): nothing was filled in.`,
  ];
}
