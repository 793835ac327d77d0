import type { Choice, Missing, Quantity } from "../worked/index.ts";
import type { LocatedFact } from "./locate.ts";

/** A numeric fact of the job as a quantity, under the symbol it has in formulas. */
export function given(fact: LocatedFact<number>, symbol: string): Quantity {
  const named = { symbol, label: fact.guide.title, unit: fact.guide.unit ?? "" };
  if (fact.state !== "known") return { kind: "unknown", ...named, missing: [missing(fact)] };
  return {
    kind: "fact",
    ...named,
    value: fact.value,
    path: fact.path,
    basis: fact.basis,
    onIso: fact.on ?? null,
  };
}

/** What to ask for when a fact is not known. */
export const missing = (fact: LocatedFact<unknown>): Missing => ({
  path: fact.path,
  label: fact.guide.title,
  what: "fact",
});

/** A known fact as the choice of a table row. */
export const choice = <T extends string | number | boolean>(
  fact: Extract<LocatedFact<T>, { state: "known" }>,
): Choice => ({
  path: fact.path,
  label: fact.guide.title,
  value: fact.value,
  unit: fact.guide.unit ?? "",
  basis: fact.basis,
  onIso: fact.on ?? null,
});

/** The values of several facts when all are known; otherwise what is missing. */
export function gather<F extends Readonly<Record<string, LocatedFact<unknown>>>>(
  facts: F,
):
  | {
      readonly known: true;
      readonly values: { readonly [K in keyof F]: F[K] extends LocatedFact<infer V> ? V : never };
    }
  | { readonly known: false; readonly missing: readonly Missing[] } {
  const unknown = Object.values(facts).filter((fact) => fact.state !== "known");
  if (unknown.length > 0) return { known: false, missing: unknown.map(missing) };
  const entries = Object.entries(facts).map(([name, fact]) => [
    name,
    fact.state === "known" ? fact.value : undefined,
  ]);
  return { known: true, values: Object.fromEntries(entries) };
}
