import type { ImportResult, IntakeProblem } from "../import-result.ts";
import type { Notes } from "../notes.ts";
import { settle } from "../series/settle.ts";
import type { Statements } from "../statements.ts";
import { DELIMITER_NAMES, type Delimiter, partings } from "../text/delimiter.ts";
import { LineSplitter } from "../text/line-splitter.ts";
import { RowSplitter, rowTooLong, strayQuote } from "../text/row-splitter.ts";
import { isBlankRow, isRow, splitRow } from "../text/split-row.ts";
import { readWrittenDay } from "../time/written-day.ts";
import { type Layout, layOut } from "./layout.ts";
import { RowReader } from "./row-reader.ts";

/** Lines that are looked at before the layout is settled. */
const HEAD_LINES = 200;

/** Reads a table of values, chunk by chunk of its text. */
export class TableReader {
  readonly #notes: Notes;
  readonly #stated: Statements;
  readonly #lines: LineSplitter;
  #head: string[] | null = [];
  #delimiter: Delimiter = ",";
  #layout: Layout | null = null;
  #reader: RowReader | null = null;
  #rows: RowSplitter | null = null;

  constructor(stated: Statements, notes: Notes) {
    this.#stated = stated;
    this.#notes = notes;
    this.#lines = new LineSplitter(
      (line, number) => this.#take(line, number),
      (number) => this.#refuse(rowTooLong(number)),
    );
  }

  push(text: string): void {
    if (!this.#notes.isFull) this.#lines.push(text);
  }

  end(): ImportResult {
    this.#lines.end();
    if (this.#head !== null) this.#begin();
    this.#rows?.end();
    this.#reader?.end();
    return settle(this.#layout, this.#reader, this.#stated, this.#notes);
  }

  #take(line: string, number: number): void {
    if (this.#notes.isFull) return;
    if (this.#head === null) {
      this.#rows?.push(line, number);
      return;
    }
    this.#head.push(line);
    if (this.#head.length === HEAD_LINES) this.#begin();
  }

  /** Settles delimiter and layout from the first lines, then reads them. */
  #begin(): void {
    const head = this.#head ?? [];
    this.#head = null;
    if (head.some((line) => line.includes("\0"))) {
      this.#notes.refuse({
        code: "NOT_TEXT",
        line: head.findIndex((line) => line.includes("\0")) + 1,
        found: "bytes that are no text",
        message: "Save the recording as text with separated columns (CSV) and import that.",
      });
      return;
    }
    if (isJson(head)) {
      this.#notes.refuse({
        code: "NOT_A_TABLE",
        line: head.findIndex((line) => line.trim() !== "") + 1,
        found: head.find((line) => line.trim() !== "") ?? "",
        message:
          "This is JSON, not a table. Give the recording as the meter or logger wrote it, or save it as text with separated columns (CSV).",
      });
      this.#notes.stop();
      return;
    }
    const first = this.#part(head);
    if (first < 0) {
      this.#notes.stop();
      return;
    }
    for (const [index, line] of head.entries()) if (index >= first) this.#rows?.push(line, index + 1);
  }

  /** @returns Place of the first row of data; -1 when there is none. */
  #part(head: readonly string[]): number {
    const found = partings(head);
    const stated = this.#stated.delimiter;
    const parting = stated === undefined ? found[0] : found.find(({ delimiter }) => delimiter === stated);
    if (parting === undefined) {
      this.#notes.refuse({
        code: head.every((line) => line.trim() === "") ? "NOTHING_RECORDED" : "NOT_A_TABLE",
        line: head.length === 0 ? 0 : 1,
        found: head.find((line) => line.trim() !== "") ?? "an empty file",
        message:
          stated === undefined
            ? "Its lines are not parted into columns by commas, semicolons, tabs or upright strokes. Check that this is the recording."
            : `Its lines are not parted by ${DELIMITER_NAMES[stated]}, as was stated. State what parts them, or nothing.`,
      });
      return -1;
    }
    this.#delimiter = parting.delimiter;
    this.#notes.conclude(
      "delimiter",
      `columns are parted by ${DELIMITER_NAMES[parting.delimiter]}`,
      stated === undefined
        ? `${parting.rowCount} of the first ${head.length} lines have ${parting.cellCount} cells so`
        : "stated",
      stated === undefined ? "seen" : "stated",
    );
    const rows = head.map((line, at) => {
      const cells = splitRow(line, parting.delimiter);
      if (!isRow(cells) && "strayAt" in cells) this.#refuse(strayQuote(line, at + 1, cells.strayAt));
      return isRow(cells) ? cells : [];
    });
    if (this.#notes.problems.length > 0) return -1;
    const day = { packed: -1, length: 0 };
    const first = rows.findIndex(
      (cells) =>
        cells.some((cell) => {
          readWrittenDay(cell.trimStart(), day);
          return day.packed >= 0;
        }) && cells.length > parting.cellCount / 2,
    );
    if (first < 0) {
      this.#notes.refuse({
        code: "NOTHING_RECORDED",
        line: head.length,
        found: `${head.length} lines without a date such as 2026-11-25 or 25/11/2026`,
        message: "Check that this is the recording, and that it has rows under its headings.",
      });
      return -1;
    }
    const headingAt = rows.findLastIndex((cells, at) => at < first && !isBlankRow(cells) && cells.length > 1);
    const headings =
      headingAt < 0
        ? (rows[first] ?? []).map((_, place) => `column ${place + 1}`)
        : (rows[headingAt] ?? []).map((heading) => heading.trim());
    this.#layout = layOut(
      {
        headings,
        headingLine: Math.max(1, headingAt + 1),
        rows: rows.slice(first).filter((cells) => !isBlankRow(cells)),
      },
      this.#stated,
      this.#notes,
    );
    if (this.#layout === null) return -1;
    const reader = new RowReader(this.#layout, this.#stated, this.#notes);
    this.#reader = reader;
    this.#rows = new RowSplitter(
      this.#delimiter,
      (cells, line) => reader.read(cells, line),
      (problem) => this.#refuse(problem),
    );
    return first;
  }

  #refuse(problem: IntakeProblem): void {
    this.#notes.refuse(problem);
    if (problem.code === "LINE_TOO_LONG") this.#notes.stop();
  }
}

/** True for text that begins as data in JSON do: a table may begin with a bracket, and then with a word. */
const isJson = (head: readonly string[]): boolean =>
  /^\ufeff?\s*(\{\s*["}]|\[\s*[[{\]"\d-])/.test(head.slice(0, JSON_LINES).join("\n").slice(0, 1000));
const JSON_LINES = 20;
