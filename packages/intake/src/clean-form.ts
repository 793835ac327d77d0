/**
 * The clean form of a recording: a table of UTC starts, values and qualities that reads back as it was.
 *
 *     start UTC,kWh per 1800 s,quality
 *     2023-10-29T00:00:00Z,0.123,recorded
 *
 * Every interval has its row; where nothing is present the value is empty. The heading names unit and step,
 * and the line where there is one: `L1 A per 60 s,L1 quality`. A current of no named line says how many lines it is
 * for, where that was stated: `A per 60 s on 1 line,quality` or `A per 60 s on each of 3 lines,quality`.
 *
 * @module
 */
import { LINES, type Line } from "@underfuse/engine";
import type { IntakeProblem } from "./import-result.ts";
import { shortened } from "./notes.ts";
import { QUALITIES } from "./series/quality.ts";
import type { RecordedSeries } from "./series/recorded-series.ts";
import { MAX_INTERVALS } from "./series/span.ts";
import type { SeriesUnit } from "./series/unit.ts";
import { LineSplitter } from "./text/line-splitter.ts";

const START = "start UTC";
const VALUE =
  /^(?:(L[123]) )?(kWh|W|A) per ([1-9]\d{0,3}) s((?<=^A per \d+ s) on (?:1 line|each of 3 lines))?$/;
const ON_LINES = { 1: " on 1 line", 3: " on each of 3 lines" } as const;
const INSTANT = /^\d{4}-\d{2}-\d{2}T\d{2}:\d{2}:\d{2}Z$/;
const NUMBER = /^-?\d+(?:\.\d+)?(?:e[+-]\d{1,3})?$/;
/** Rows written in one piece of text. */
const ROWS_A_PIECE = 4096;

/** Text of a series in its clean form, piece by piece. */
export function* cleanText({ startMs, stepS, unit, channels }: RecordedSeries): Generator<string> {
  const headings = channels.flatMap(({ line, onLines }) => {
    const lead = line === null ? "" : `${line} `;
    const shared = onLines === undefined ? "" : ON_LINES[onLines];
    return [`${lead}${unit} per ${stepS} s${shared}`, `${lead}quality`];
  });
  let piece = `${[START, ...headings].join(",")}\n`;
  const count = channels[0]?.values.length ?? 0;
  for (let at = 0; at < count; at++) {
    piece += `${new Date(startMs + at * stepS * 1000).toISOString().slice(0, 19)}Z`;
    for (const { values, quality } of channels) {
      const value = values[at] as number;
      piece += `,${Number.isNaN(value) ? "" : value},${QUALITIES[quality[at] as number]}`;
    }
    piece += "\n";
    if (at % ROWS_A_PIECE === ROWS_A_PIECE - 1) {
      yield piece;
      piece = "";
    }
  }
  yield piece;
}

/** Whether a first line may still become, or is, that of the clean form. @param line May be cut short. */
export const mayBeClean = (line: string): boolean =>
  line.length < START.length ? START.startsWith(line) : line.startsWith(`${START},`) || line === START;

/** Whether a whole first line is that of the clean form. */
export const isCleanHeading = (line: string): boolean => headOf(line.split(",")) !== null;

export type CleanResult =
  | { readonly ok: true; readonly series: RecordedSeries }
  | { readonly ok: false; readonly problem: IntakeProblem };

/** Reads the clean form, strictly: any other text is refused with its line. */
export function readCleanSeries(text: string): CleanResult {
  const reader = new CleanSeriesReader();
  reader.push(text);
  return reader.end();
}

interface OpenChannel {
  readonly line: Line | null;
  readonly onLines?: 1 | 3;
  readonly values: number[];
  readonly quality: number[];
}

interface Head {
  readonly unit: SeriesUnit;
  readonly stepS: number;
  readonly channels: readonly OpenChannel[];
}

/** What the headings say; null where they are not those of the clean form. */
function headOf([start, ...headings]: readonly string[]): Head | null {
  const pairs = Array.from({ length: Math.ceil(headings.length / 2) }, (_, index) => ({
    value: VALUE.exec(headings[2 * index] ?? ""),
    quality: headings[2 * index + 1],
  }));
  const [first] = pairs;
  const lines = pairs.map(({ value }) => value?.[1] ?? null);
  const isSound =
    start === START &&
    pairs.length >= 1 &&
    pairs.every(
      ({ value, quality }) =>
        value !== null &&
        value[2] === first?.value?.[2] &&
        value[3] === first?.value?.[3] &&
        quality === (value[1] === undefined ? "quality" : `${value[1]} quality`),
    ) &&
    new Set(lines).size === pairs.length &&
    (pairs.length === 1 || !lines.includes(null));
  const stepS = Number(first?.value?.[3]);
  if (!isSound || stepS > 3600) return null;
  return {
    unit: first?.value?.[2] as SeriesUnit,
    stepS,
    channels: pairs.map(({ value }) => ({
      line: LINES.find((known) => known === value?.[1]) ?? null,
      ...(value?.[4] === undefined ? {} : { onLines: value[4] === ON_LINES[1] ? 1 : 3 }),
      values: [],
      quality: [],
    })),
  };
}

/** Reads the clean form chunk by chunk. */
export class CleanSeriesReader {
  #head: Head | null = null;
  #startMs = 0;
  #rowCount = 0;
  #problem: IntakeProblem | null = null;
  readonly #lines = new LineSplitter(
    (line, number) => {
      if (this.#problem === null) this.#take(line, number);
    },
    (number) => this.#refuse(number, "a very long line", "Check that this is a recording in the clean form."),
  );

  /** True once nothing that follows can make a series of it. */
  get isRefused(): boolean {
    return this.#problem !== null;
  }

  push(text: string): void {
    if (this.#problem === null) this.#lines.push(text);
  }

  end(): CleanResult {
    this.#lines.end();
    if (this.#problem === null && (this.#head === null || this.#rowCount === 0))
      this.#refuse(1, "no row of a recording", "Write it anew with underfuse import FILE --csv OUT.");
    if (this.#problem !== null || this.#head === null)
      return { ok: false, problem: this.#problem as IntakeProblem };
    const { unit, stepS, channels } = this.#head;
    return {
      ok: true,
      series: {
        startMs: this.#startMs,
        stepS,
        unit,
        channels: channels.map(({ values, quality, ...of }) => ({
          ...of,
          values: Float64Array.from(values),
          quality: Uint8Array.from(quality),
          duplicateCount: 0,
        })),
      },
    };
  }

  #take(line: string, number: number): void {
    const cells = line.split(",");
    if (number === 1) {
      this.#takeHeadings(cells);
      return;
    }
    if (line === "" || this.#head === null) return;
    const { stepS, channels } = this.#head;
    const [start = "", ...rest] = cells;
    const atMs = INSTANT.test(start) ? Date.parse(start) : Number.NaN;
    // The platform reads 30 February as 2 March.
    if (Number.isNaN(atMs) || new Date(atMs).toISOString().slice(0, 19) !== start.slice(0, 19)) {
      this.#refuse(number, start, "Write the start as 2026-11-25T00:30:00Z.");
      return;
    }
    if (this.#rowCount === 0) this.#startMs = atMs;
    const expectedMs = this.#startMs + this.#rowCount * stepS * 1000;
    if (atMs !== expectedMs) {
      this.#refuse(
        number,
        start,
        `The row of ${new Date(expectedMs).toISOString().slice(0, 19)}Z belongs here. Keep every interval in its order, with an empty value where nothing is known.`,
      );
      return;
    }
    if (rest.length !== 2 * channels.length) {
      this.#refuse(number, `${cells.length} cells`, `Each row has ${1 + 2 * channels.length}.`);
      return;
    }
    if (++this.#rowCount > MAX_INTERVALS) {
      this.#refuse(
        number,
        "one interval too many",
        `A recording may hold ${MAX_INTERVALS}. Import fewer days.`,
      );
      return;
    }
    for (const [index, channel] of channels.entries())
      this.#takeReading(
        channel,
        { value: rest[2 * index] ?? "", quality: rest[2 * index + 1] ?? "" },
        number,
      );
  }

  #takeReading(
    channel: OpenChannel,
    cell: { readonly value: string; readonly quality: string },
    number: number,
  ): void {
    const quality = QUALITIES.indexOf(cell.quality as (typeof QUALITIES)[number]);
    const value = cell.value === "" ? Number.NaN : NUMBER.test(cell.value) ? Number(cell.value) : null;
    const isThere = cell.quality !== "absent" && cell.quality !== "left-out";
    if (quality < 0) this.#refuse(number, cell.quality, `A quality is one of ${QUALITIES.join(", ")}.`);
    else if (
      value === null ||
      Number.isNaN(value) === isThere ||
      Math.abs(value) === Number.POSITIVE_INFINITY
    )
      this.#refuse(
        number,
        `${cell.value},${cell.quality}`,
        "Write a number, or nothing and the quality absent or left-out.",
      );
    else {
      channel.values.push(value);
      channel.quality.push(quality);
    }
  }

  #takeHeadings(cells: readonly string[]): void {
    this.#head = headOf(cells);
    if (this.#head === null)
      this.#refuse(
        1,
        cells.join(","),
        'The headings of the clean form are "start UTC,kWh per 1800 s,quality", with W or A in place of kWh, and L1, L2 or L3 before each where lines were recorded; after an A without a line may stand "on 1 line" or "on each of 3 lines".',
      );
  }

  #refuse(line: number, found: string, message: string): void {
    this.#problem ??= { code: "CLEAN_FORM_WRONG", line, found: shortened(found), message };
  }
}
