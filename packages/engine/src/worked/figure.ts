import type { Missing } from "./basis.ts";
import type { Citation } from "./citation.ts";
import type { Quantity } from "./quantity.ts";

/** A figure set by a rule book or a method, as a series in force from given dates. */
export interface Figure {
  readonly symbol: string;
  readonly label: string;
  readonly unit: string;
  /** Oldest first. `value: null` = withdrawn from that date. */
  readonly series: readonly {
    /** ISO date from which it holds. */
    readonly from: string;
    readonly value: number | null;
    readonly citation: Citation;
  }[];
}

/** The figure in force on a date; unknown before its first entry and after its withdrawal, never a guess. */
export function figureOn(figure: Figure, dateIso: string): Quantity {
  const { symbol, label, unit } = figure;
  const entry = figure.series.findLast((item) => item.from <= dateIso);
  if (entry === undefined || entry.value === null) {
    return unknownFigure({ symbol, label, unit }, `${label} in force on ${dateIso}`);
  }
  return { kind: "figure", symbol, label, unit, value: entry.value, citation: entry.citation };
}

/** Reads figures by name on the date of the job. A function asks for the names it uses and no others. */
export type Figures<Name extends string> = (name: Name) => Quantity;

/** A figure that no table here holds; `what` names it for the reader. */
export const missingFigure = (what: string): Missing => ({
  path: `figure: ${what}`,
  label: what,
  what: "figure",
});

/** The quantity that a figure nobody holds leaves unknown. */
export const unknownFigure = (
  named: { readonly symbol: string; readonly label: string; readonly unit: string },
  what: string,
): Quantity => ({
  kind: "unknown",
  ...named,
  missing: [missingFigure(what)],
});
