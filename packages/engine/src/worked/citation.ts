/**
 * How far a figure has been checked against its printed source.
 *
 * - `seen`: read in the source itself, or on a page that quotes it.
 * - `second-hand`: seen only on a page of low authority (a forum, a teaching site, a page not named).
 * - `recalled`: written from memory; nobody has checked it yet.
 * - `practice`: a habit of the trade without a printed source.
 * - `own`: a method or a margin of this project's own; the source is its page in docs/.
 */
export const STANDINGS = ["seen", "second-hand", "recalled", "practice", "own"] as const;
export type Standing = (typeof STANDINGS)[number];

/** A document that a figure or a rule comes from. */
export interface Source {
  /** Short stable key, used in data and docstrings: `[bs7671]`. */
  readonly id: string;
  readonly title: string;
  readonly edition: string;
  readonly publisher: string;
  /** Where a person can read it; absent when it is sold on paper only. */
  readonly address?: string;
}

/** The place inside a source: enough for a reviewer to put a finger on it. */
export interface Citation {
  readonly source: Source["id"];
  /** Clause, table, figure or page. */
  readonly at: string;
  readonly standing: Standing;
  /** The page or reprint on which it was seen, when that is not the source itself. */
  readonly seenAt?: Source["id"];
  /** What a reader must know before relying on it: a conflict, an edition, a limit. */
  readonly remark?: string;
}
