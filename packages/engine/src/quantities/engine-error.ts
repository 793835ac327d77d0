/**
 * The one catalogue of refusals.
 *
 * *Thrown* codes mean that a caller broke a function's contract. *Problem* codes are returned, never
 * thrown: they say that a document cannot be opened. A job that merely fails a check is neither: it
 * gets a finding. Every code has a section in docs/reference/errors.md, and a test holds both together.
 *
 * @module
 */

/** Codes that {@link EngineError} carries: the caller is wrong. */
export const THROWN_CODES = ["OUT_OF_DOMAIN", "NOT_IN_TREE"] as const;

/** Codes of problems with a document: the document is wrong. */
export const PROBLEM_CODES = [
  "TEXT_TOO_LARGE",
  "JSON_SYNTAX",
  "JSON_TOO_DEEP",
  "JSON_DUPLICATE_KEY",
  "JSON_FORBIDDEN_KEY",
  "NOT_A_JOB",
  "NOT_READINGS",
  "NOT_A_PORTFOLIO",
  "NOT_REGISTER_MAP",
  "NOT_REGISTERS",
  "REGISTER_TWICE",
  "FORMAT_FROM_THE_FUTURE",
  "FORMAT_UNKNOWN",
  "FIELD_MISSING",
  "FIELD_UNKNOWN",
  "FIELD_WRONG_TYPE",
  "FIELD_OUT_OF_RANGE",
  "FIELD_NOT_ALLOWED",
  "TREE_DUPLICATE_ID",
  "TREE_UNKNOWN_NODE",
  "TREE_NO_ORIGIN",
  "TREE_TWO_FEEDS",
  "TREE_CIRCULAR",
  "TREE_ORPHAN",
  "TREE_LINE_NOT_FED",
  "TREE_NOT_ALLOWED_HERE",
  "TREE_UNKNOWN_CABLE",
] as const;

/** Codes once used and given up. They are never used again. */
export const RETIRED_CODES: readonly string[] = [];

export type ThrownCode = (typeof THROWN_CODES)[number];
export type ProblemCode = (typeof PROBLEM_CODES)[number];

/** Thrown when a caller breaks a function's contract. Never thrown for a job that merely fails a check. */
export class EngineError extends Error {
  override readonly name: string = "EngineError";
  constructor(
    readonly code: ThrownCode,
    /** What happened, the value received, and what to do about it. */
    message: string,
    /** Machine-readable facts behind the message, unit-suffixed. */
    readonly details: Readonly<Record<string, number | string>> = {},
  ) {
    super(message);
  }
}
