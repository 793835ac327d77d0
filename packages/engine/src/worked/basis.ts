/** How a fact came to be known. Findings quote it; documents print it. */
export const BASES = ["measured", "declared", "read-from-label", "seen-on-site", "assumed"] as const;
export type Basis = (typeof BASES)[number];

/** Something that would have to be known for a check to be made. */
export interface Missing {
  /** Place in the job document, or the name of the table that has no such row. */
  readonly path: string;
  /** What it is, in words. */
  readonly label: string;
  /**
   * `fact`: record it in the job. `figure`: no table holds it; ask the maker or choose another.
   * `decision`: no measurement settles it; a competent designer does.
   */
  readonly what: "fact" | "figure" | "decision";
}

/** What only a competent designer settles; `what` names it for the reader. */
export const missingDecision = (what: string): Missing => ({
  path: `decision: ${what}`,
  label: what,
  what: "decision",
});

/** A fact that is not a number in the formula but decided which row of a table was taken. */
export interface Choice {
  readonly path: string;
  readonly label: string;
  readonly value: string | number | boolean;
  readonly unit: string;
  readonly basis: Basis;
  readonly onIso: string | null;
}
