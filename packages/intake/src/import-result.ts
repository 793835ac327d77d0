import type { RecordedSeries } from "./series/recorded-series.ts";
import type { Statements } from "./statements.ts";

/** What an importer makes of a file: a series, what it must ask, or what is wrong with the file. */
export type ImportResult =
  | {
      readonly state: "series";
      readonly series: RecordedSeries;
      readonly conclusions: readonly Conclusion[];
      readonly remarks: readonly Remark[];
    }
  | {
      readonly state: "questions";
      readonly questions: readonly Question[];
      readonly conclusions: readonly Conclusion[];
      readonly remarks: readonly Remark[];
    }
  | {
      readonly state: "refused";
      readonly problems: readonly IntakeProblem[];
      readonly conclusions: readonly Conclusion[];
    };

/** One thing the importer takes to be so, and why. */
export interface Conclusion {
  readonly id: string;
  readonly says: string;
  /** The evidence, with its place in the file where it has one. */
  readonly because: string;
  /** `seen` in the file, `stated` by the caller, or `assumed` where neither says. */
  readonly basis: "seen" | "stated" | "assumed";
}

/** Something that changes the numbers and that the file does not tell. */
export interface Question {
  /** The statement that answers it. */
  readonly id: keyof Statements;
  readonly asks: string;
  /** Why the file does not tell it. */
  readonly because: string;
  /** What may be stated, and what each means. Empty where any text or number may be. */
  readonly answers: readonly { readonly answer: string; readonly means: string }[];
  /** Three answers that may be given together, one for each line; empty where which three cannot be told. */
  readonly orThree?: readonly string[];
}

/** Something left out, or worth knowing, that did not stop the import. */
export interface Remark {
  readonly id: string;
  readonly says: string;
}

/** Codes of what can be wrong with a recording; each has a section in docs/reference/errors.md. */
export const INTAKE_CODES = [
  "NOT_TEXT",
  "NOT_A_TABLE",
  "LINE_TOO_LONG",
  "QUOTES_WRONG",
  "COLUMN_ABSENT",
  "CELL_COUNT",
  "DATE_UNREADABLE",
  "DATE_ORDER_MIXED",
  "TIME_UNREADABLE",
  "TIME_NOT_THERE",
  "TIME_OFF_GRID",
  "TIME_TWICE",
  "VALUE_UNREADABLE",
  "DECIMALS_MIXED",
  "UNIT_NOT_READ",
  "SPAN_TOO_LONG",
  "REGISTER_FALLS",
  "NOTHING_RECORDED",
  "ZONE_UNKNOWN",
  "STATEMENT_CONTRADICTED",
  "XML_WRONG",
  "XML_FORBIDDEN",
  "CLEAN_FORM_WRONG",
] as const;
export type IntakeCode = (typeof INTAKE_CODES)[number];

/** Why a file is refused: the place, what stood there, what to do. */
export interface IntakeProblem {
  readonly code: IntakeCode;
  /** Line of the file, from 1; 0 for the file as a whole. */
  readonly line: number;
  /** Column of the table (a cell) or of the XML text (a character), from 1. */
  readonly column?: number;
  readonly found: string;
  readonly message: string;
}
