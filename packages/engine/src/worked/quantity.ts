/**
 * A number that never travels alone.
 *
 * Every number in an assessment is a {@link Quantity}: a *fact* of the job, a *figure* of a rule book,
 * a *step* worked from other quantities, or *unknown* with the facts that are missing. Working with an
 * unknown gives an unknown, so nothing missing is ever taken for zero, and every result opens down to
 * what was measured and where each figure is printed.
 *
 * @module
 */
import type { Basis, Choice, Missing } from "./basis.ts";
import type { Citation } from "./citation.ts";

/** Units as printed. Names in code carry their own suffix; this is for the reader. */
export type Unit = string;

interface Named {
  /** The symbol of the formula, in the trade's notation: `Zs`, `Ib`, `R1R2`. */
  readonly symbol: string;
  /** What it is, in words. */
  readonly label: string;
  readonly unit: Unit;
}

/** A fact of the job. */
export interface FactQuantity extends Named {
  readonly kind: "fact";
  readonly value: number;
  /** Place in the job document. */
  readonly path: string;
  readonly basis: Basis;
  readonly onIso: string | null;
}

/** A figure of a rule book, a table or a method. */
export interface FigureQuantity extends Named {
  readonly kind: "figure";
  readonly value: number;
  readonly citation: Citation;
  /** Facts that chose this row of the table; absent for a figure that holds for every job. */
  readonly chosenBy?: readonly Choice[];
}

/** A number worked from others. */
export interface StepQuantity extends Named {
  readonly kind: "step";
  readonly value: number;
  /** Plain arithmetic in the symbols of `inputs`. Printed as it stands; a test re-evaluates it. */
  readonly formula: string;
  readonly inputs: Readonly<Record<string, Known>>;
  /** Where the formula comes from: a key of the knowledge's clauses. */
  readonly clause: string;
  readonly compute: (values: Readonly<Record<string, number>>) => number;
}

export type Known = FactQuantity | FigureQuantity | StepQuantity;

/** No number, and why: at least one missing fact or figure. */
export interface UnknownQuantity extends Named {
  readonly kind: "unknown";
  readonly missing: readonly Missing[];
}

export type Quantity = Known | UnknownQuantity;

export const isKnown = (quantity: Quantity): quantity is Known => quantity.kind !== "unknown";

/** The number, or NaN while it is unknown. For putting quantities in order, never for a result. */
export const numberOf = (quantity: Quantity): number => (isKnown(quantity) ? quantity.value : Number.NaN);
