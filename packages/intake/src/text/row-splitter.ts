import type { IntakeProblem } from "../import-result.ts";
import { LineSplitter, MAX_LINE } from "./line-splitter.ts";
import { isRow, splitRow } from "./split-row.ts";

/** Lines that one row may have, by ends of lines within quotes. */
const MAX_ROW_LINES = 100;

/** Takes a row's cells and the line it began on. */
type OnRow = (cells: readonly string[], line: number) => void;

/** Makes rows of lines: one each, or several where quotes hold the end of a line. */
export class RowSplitter {
  readonly #delimiter: string;
  readonly #onRow: OnRow;
  readonly #onProblem: (problem: IntakeProblem) => void;
  /** A row whose quotes are still open, the line it began on, and how many it has. */
  #open: { readonly text: string; readonly line: number; readonly lineCount: number } | null = null;

  constructor(delimiter: string, onRow: OnRow, onProblem: (problem: IntakeProblem) => void) {
    this.#delimiter = delimiter;
    this.#onRow = onRow;
    this.#onProblem = onProblem;
  }

  push(line: string, number: number): void {
    if (line === "" && this.#open === null) return;
    const text = this.#open === null ? line : `${this.#open.text}\n${line}`;
    const begun = this.#open?.line ?? number;
    const lineCount = 1 + (this.#open?.lineCount ?? 0);
    this.#open = null;
    const cells = splitRow(text, this.#delimiter);
    if (isRow(cells)) this.#onRow(cells, begun);
    else if ("strayAt" in cells) this.#onProblem(strayQuote(text, begun, cells.strayAt));
    // Read again with every line: a bound on lines bounds the work.
    else if (text.length > MAX_LINE || lineCount > MAX_ROW_LINES) this.#onProblem(rowTooLong(begun));
    else this.#open = { text, line: begun, lineCount };
  }

  end(): void {
    if (this.#open === null) return;
    this.#onProblem({
      code: "QUOTES_WRONG",
      line: this.#open.line,
      found: this.#open.text,
      message: "Quotes open on this line and never close. Close them, or remove them.",
    });
  }
}

export const strayQuote = (text: string, line: number, strayAt: number): IntakeProblem => ({
  code: "QUOTES_WRONG",
  line,
  found: text,
  message: `A quote stands at character ${strayAt}, inside a cell. Put the whole cell in quotes and double the ones in it, or remove them.`,
});

export const rowTooLong = (line: number): IntakeProblem => ({
  code: "LINE_TOO_LONG",
  line,
  found: `a row of more than ${MAX_LINE} characters or ${MAX_ROW_LINES} lines`,
  message: "No row of a recording is so long. Check that the file is text, and that its quotes close.",
});

/**
 * Hands over every row of a text that is at hand whole.
 *
 * @returns What is wrong with the first row that is none; null where all are rows.
 */
export function eachRow(text: string, delimiter: string, onRow: OnRow): IntakeProblem | null {
  let first: IntakeProblem | null = null;
  const stop = (problem: IntakeProblem): void => {
    first ??= problem;
  };
  const rows = new RowSplitter(
    delimiter,
    (cells, line) => {
      if (first === null) onRow(cells, line);
    },
    stop,
  );
  const lines = new LineSplitter(
    (line, number) => rows.push(line, number),
    (number) => stop(rowTooLong(number)),
  );
  lines.push(text.startsWith("\ufeff") ? text.slice(1) : text);
  lines.end();
  rows.end();
  return first;
}
