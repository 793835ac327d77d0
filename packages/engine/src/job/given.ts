import type { Choice, Missing, Quantity } from "../worked/index.ts";
import type { LocatedFact } from "./locate.ts";

/** A numeric fact of the job as a quantity, under the symbol it has in formulas and, where given, a label of its own. */
export function given(fact: LocatedFact<number>, symbol: string, label = fact.guide.title): Quantity {
  const unit = fact.guide.unit ?? "";
  if (fact.state !== "known") return { kind: "unknown", symbol, label, unit, missing: [missing(fact)] };
  const { value, path, basis, on = null } = fact;
  return { kind: "fact", symbol, label, unit, value, path, basis, onIso: on };
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
  const values: Record<string, unknown> = {};
  const unknown: Missing[] = [];
  for (const name in facts) {
    const fact = facts[name] as LocatedFact<unknown>;
    if (fact.state === "known") values[name] = fact.value;
    else unknown.push(missing(fact));
  }
  return unknown.length > 0
    ? { known: false, missing: unknown }
    : { known: true, values: values as { [K in keyof F]: F[K] extends LocatedFact<infer V> ? V : never } };
}
