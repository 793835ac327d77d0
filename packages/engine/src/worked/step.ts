import type { Missing } from "./basis.ts";
import { groundsOf } from "./evaluate.ts";
import { missingFigure } from "./figure.ts";
import type { Known, Quantity, StepQuantity, UnknownQuantity } from "./quantity.ts";

/**
 * Works one number out of others.
 *
 * `formula` and `compute` say the same thing twice, once for the reader and once for the machine; the
 * test suite re-evaluates every formula of every example with an independent evaluator and compares.
 * Keys of `inputs` are the symbols of the formula. With any input unknown the result is unknown and
 * carries all that is missing. A result that is no finite number, such as one divided by a measured
 * zero, is unknown too, and asks for the facts it came from.
 *
 * @example
 * step({ symbol: "Zs", label: "earth fault loop impedance", unit: "Ω", clause: "earth-fault-loop",
 *   formula: "Ze + R1R2", inputs: { Ze, R1R2 }, compute: ({ Ze, R1R2 }) => Ze + R1R2 });
 */
export function step<Symbols extends string>(spec: {
  readonly symbol: string;
  readonly label: string;
  readonly unit: string;
  readonly clause: string;
  readonly formula: string;
  readonly inputs: Readonly<Record<Symbols, Quantity>>;
  readonly compute: (values: Readonly<Record<Symbols, number>>) => number;
}): Quantity {
  const { symbol, label, unit, formula, clause } = spec;
  const values: Record<string, number> = {};
  const unknown: UnknownQuantity[] = [];
  for (const name in spec.inputs) {
    const input = spec.inputs[name];
    if (input.kind === "unknown") unknown.push(input);
    else values[name] = input.value;
  }
  if (unknown.length > 0) return unknownQuantity({ symbol, label, unit }, unknown);
  const inputs = spec.inputs as Readonly<Record<Symbols, Known>>;
  const compute = spec.compute as StepQuantity["compute"];
  const value = compute(values);
  if (!Number.isFinite(value))
    return { kind: "unknown", symbol, label, unit, missing: betterFacts(label, Object.values(inputs)) };
  return {
    kind: "step",
    symbol,
    label,
    unit,
    value,
    formula,
    inputs,
    clause,
    compute,
  };
}

/** The facts behind a result that cannot be: one of them must be wrong. */
function betterFacts(label: string, inputs: readonly Known[]): readonly Missing[] {
  const facts = groundsOf(inputs).leaves.filter((leaf) => leaf.kind === "fact");
  if (facts.length === 0) return [missingFigure(label)];
  return facts.map((fact) => ({
    path: fact.path,
    label: `${fact.label}, which cannot be right at ${`${fact.value} ${fact.unit}`.trim()} if all else is`,
    what: "fact",
  }));
}

/** An unknown that gathers what its inputs lack, each thing once. */
function unknownQuantity(
  named: Pick<UnknownQuantity, "symbol" | "label" | "unit">,
  inputs: readonly UnknownQuantity[],
): UnknownQuantity {
  const missing = new Map(inputs.flatMap((input) => input.missing).map((item) => [item.path, item]));
  return { kind: "unknown", ...named, missing: [...missing.values()] };
}

/**
 * A sum of any number of terms, each keeping its own symbol. Terms that share a symbol are numbered.
 * The sum of no terms is zero.
 */
export function total(
  spec: { readonly symbol: string; readonly label: string; readonly unit: string; readonly clause: string },
  terms: readonly Quantity[],
): Quantity {
  const inputs = numbered(terms);
  return step({
    ...spec,
    formula: Object.keys(inputs).join(" + ") || "0",
    inputs,
    compute: (values) => Object.values(values).reduce((sum, value) => sum + value, 0),
  });
}

/** The largest of one or more terms. */
export const largest = (
  spec: Parameters<typeof total>[0],
  terms: readonly [Quantity, ...Quantity[]],
): Quantity => extreme("max", Math.max, spec, terms);

/** The smallest of one or more terms. */
export const smallest = (
  spec: Parameters<typeof total>[0],
  terms: readonly [Quantity, ...Quantity[]],
): Quantity => extreme("min", Math.min, spec, terms);

function extreme(
  name: "max" | "min",
  pick: (...values: number[]) => number,
  spec: Parameters<typeof total>[0],
  terms: readonly Quantity[],
): Quantity {
  const inputs = numbered(terms);
  return step({
    ...spec,
    formula: `${name}(${Object.keys(inputs).join(", ")})`,
    inputs,
    compute: (values) => pick(...Object.values(values)),
  });
}

function numbered(terms: readonly Quantity[]): Record<string, Quantity> {
  const uses = new Map<string, number>();
  for (const { symbol } of terms) uses.set(symbol, (uses.get(symbol) ?? 0) + 1);
  const seen = new Map<string, number>();
  const inputs: Record<string, Quantity> = {};
  for (const term of terms) {
    const { symbol } = term;
    const count = (seen.get(symbol) ?? 0) + 1;
    seen.set(symbol, count);
    inputs[uses.get(symbol) === 1 ? symbol : `${symbol}_${count}`] = term;
  }
  return inputs;
}
