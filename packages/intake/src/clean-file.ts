import { CleanSeriesReader } from "./clean-form.ts";
import type { ImportResult } from "./import-result.ts";
import type { Notes } from "./notes.ts";
import type { Statements } from "./statements.ts";

/** Imports a file that is in the clean form already: it says all of itself, and nothing may be stated of it. */
export class CleanFileReader {
  readonly #reader = new CleanSeriesReader();
  readonly #notes: Notes;
  readonly #stated: Statements;

  constructor(stated: Statements, notes: Notes) {
    this.#stated = stated;
    this.#notes = notes;
  }

  push(text: string): void {
    this.#reader.push(text);
    if (this.#reader.isRefused) this.#notes.stop();
  }

  end(): ImportResult {
    const notes = this.#notes;
    const read = this.#reader.end();
    const [stated] = Object.keys(this.#stated);
    if (stated !== undefined)
      notes.refuse({
        code: "STATEMENT_CONTRADICTED",
        line: 1,
        found: "a recording in the clean form",
        message: `It says all of itself, and what was stated of its "${stated}" is not used. Import it without.`,
      });
    if (!read.ok) notes.refuse(read.problem);
    if (!read.ok || stated !== undefined) return notes.outcome();
    const { unit, stepS } = read.series;
    notes.conclude("clean-form", "the clean form that an import writes", "its headings");
    notes.conclude("unit", `values in ${unit}`, "its headings");
    notes.conclude("stepS", `intervals of ${stepS} s`, "its headings");
    const { conclusions, remarks } = notes;
    return { state: "series", series: read.series, conclusions, remarks };
  }
}
