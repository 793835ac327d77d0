import type { ImportResult } from "../import-result.ts";
import type { Notes } from "../notes.ts";
import { settle } from "../series/settle.ts";
import type { Statements } from "../statements.ts";
import { DELIMITER_NAMES, type Delimiter, partings } from "../text/delimiter.ts";
import { LineSplitter, MAX_LINE } from "../text/line-splitter.ts";
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
  /** A row whose quotes are still open, and the line it began on. */
  #open: { readonly text: string; readonly line: number } | null = null;

  constructor(stated: Statements, notes: Notes) {
    this.#stated = stated;
    this.#notes = notes;
    this.#lines = new LineSplitter(
      (line, number) => this.#take(line, number),
      (number) => this.#refuseLong(number),
    );
  }

  push(text: string): void {
    if (!this.#notes.isFull) this.#lines.push(text);
  }

  end(): ImportResult {
    this.#lines.end();
    if (this.#head !== null) this.#begin();
    if (this.#open !== null)
      this.#notes.refuse({
        code: "QUOTES_WRONG",
        line: this.#open.line,
        found: this.#open.text,
        message: "Quotes open on this line and never close. Close them, or remove them.",
      });
    this.#reader?.end();
    return settle(this.#layout, this.#reader, this.#stated, this.#notes);
  }

  #take(line: string, number: number): void {
    if (this.#notes.isFull) return;
    if (this.#head === null) {
      this.#takeRow(line, number);
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
    const first = this.#part(head);
    if (first < 0) return;
    for (const [index, line] of head.entries()) if (index >= first) this.#takeRow(line, index + 1);
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
    const rows = head.map((line) => {
      const cells = splitRow(line, parting.delimiter);
      return isRow(cells) ? cells : [];
    });
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
    this.#reader = new RowReader(this.#layout, this.#stated, this.#notes);
    return first;
  }

  #takeRow(line: string, number: number): void {
    if (this.#reader === null || (line === "" && this.#open === null)) return;
    const text = this.#open === null ? line : `${this.#open.text}\n${line}`;
    const begun = this.#open?.line ?? number;
    const cells = splitRow(text, this.#delimiter);
    this.#open = null;
    if (isRow(cells)) this.#reader.read(cells, begun);
    else if ("open" in cells) {
      if (text.length > MAX_LINE) this.#refuseLong(begun);
      else this.#open = { text, line: begun };
    } else
      this.#notes.refuse({
        code: "QUOTES_WRONG",
        line: begun,
        found: text,
        message: `A quote stands at character ${cells.strayAt}, inside a cell. Put the whole cell in quotes and double the ones in it, or remove them.`,
      });
  }

  #refuseLong(line: number): void {
    this.#notes.refuse({
      code: "LINE_TOO_LONG",
      line,
      found: `more than ${MAX_LINE} characters`,
      message: "No row of a recording is so long. Check that the file is text, and that its quotes close.",
    });
    this.#reader = null;
  }
}
