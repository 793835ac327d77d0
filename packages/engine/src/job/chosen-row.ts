import type { Citation, Quantity } from "../worked/index.ts";
import { unknownFigure } from "../worked/index.ts";
import { choice, gather } from "./given.ts";
import type { LocatedFact } from "./locate.ts";

type Choosable = string | number | boolean;
type Values<F> = { readonly [K in keyof F]: F[K] extends LocatedFact<infer V> ? V : never };

/**
 * One value of a table, taken by facts of the job.
 *
 * The quantity keeps which facts chose the row, so that a verdict resting on an assumed cable size says
 * so. An unknown fact gives an unknown; so does a row that the table does not have, never the nearest.
 */
export function chosenRow<F extends Readonly<Record<string, LocatedFact<Choosable>>>>(
  named: { readonly symbol: string; readonly label: string; readonly unit: string },
  facts: F,
  find: (values: Values<F>) => { readonly value: number; readonly citation: Citation } | undefined,
): Quantity {
  const gathered = gather(facts);
  if (!gathered.known) return { kind: "unknown", ...named, missing: gathered.missing };
  const row = find(gathered.values as Values<F>);
  const chosenBy = Object.values(facts).flatMap((fact) => (fact.state === "known" ? [choice(fact)] : []));
  if (row !== undefined)
    return { kind: "figure", ...named, value: row.value, citation: row.citation, chosenBy };
  const wanted = chosenBy
    .map(({ label, value, unit }) => `${label} ${value}${unit && ` ${unit}`}`)
    .join(", ");
  return unknownFigure(named, `${named.label} for ${wanted}`);
}
