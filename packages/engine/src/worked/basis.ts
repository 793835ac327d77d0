/** How a fact came to be known. Findings quote it; documents print it. */
export const BASES = ["measured", "declared", "read-from-label", "seen-on-site", "assumed"] as const;
export type Basis = (typeof BASES)[number];

/** Something that would have to be known for a check to be made. */
export interface Missing {
  /** Place in the job document, or the name of the table that has no such row. */
  readonly path: string;
  /** What it is, in words. */
  readonly label: string;
  /** `fact`: record it in the job. `figure`: no table holds it; ask the maker or choose another. */
  readonly what: "fact" | "figure";
}

/** A fact that is not a number in the formula but decided which row of a table was taken. */
export interface Choice {
  readonly path: string;
  readonly label: string;
  readonly value: string | number | boolean;
  readonly unit: string;
  readonly basis: Basis;
  readonly onIso: string | null;
}
