import type { Known, StepQuantity } from "./quantity.ts";

/**
 * A quantity as a function of one fact of the job; undefined when it does not rest on that fact.
 *
 * Only numbers are reworked: a table row or a method chosen on the way stays as it was chosen.
 */
export function asFunctionOf(quantity: Known, path: string): ((factValue: number) => number) | undefined {
  /** Steps that rest on the fact, inputs before results, each with its slots in the values. */
  const steps: {
    compute: StepQuantity["compute"];
    values: Record<string, number>;
    varies: [string, number][];
  }[] = [];
  const indexOf = new Map<Known, number>();
  const FACT = -1;
  const FIXED = -2;
  const visit = (node: Known): number => {
    if (node.kind === "figure") return FIXED;
    if (node.kind === "fact") return node.path === path ? FACT : FIXED;
    const seen = indexOf.get(node);
    if (seen !== undefined) return seen;
    const varies: [string, number][] = [];
    for (const symbol in node.inputs) {
      const at = visit(node.inputs[symbol] as Known);
      if (at !== FIXED) varies.push([symbol, at]);
    }
    const index =
      varies.length === 0
        ? FIXED
        : steps.push({ compute: node.compute, values: valuesOf(node.inputs), varies }) - 1;
    indexOf.set(node, index);
    return index;
  };
  const root = visit(quantity);
  if (root === FIXED) return undefined;
  if (root === FACT) return (factValue) => factValue;
  const results = new Float64Array(steps.length);
  return (factValue) => {
    for (const [index, { compute, values, varies }] of steps.entries()) {
      for (const [symbol, at] of varies) values[symbol] = at === FACT ? factValue : (results[at] as number);
      results[index] = compute(values);
    }
    return results[root] as number;
  };
}

const valuesOf = (inputs: StepQuantity["inputs"]): Record<string, number> =>
  Object.fromEntries(Object.entries(inputs).map(([symbol, { value }]) => [symbol, value]));

export type Leaf = Exclude<Known, { kind: "step" }>;

/** What quantities come from: the ends of their working, and the clauses of the steps between. */
export interface Grounds {
  /** Every fact and figure, each once, in reading order. */
  readonly leaves: readonly Leaf[];
  /** Keys of the knowledge's clauses, each once. */
  readonly clauses: readonly string[];
}

export function groundsOf(quantities: readonly Known[]): Grounds {
  const leaves = new Map<string, Leaf>();
  const clauses = new Set<string>();
  const walked = new Set<Known>();
  const walk = (node: Known): void => {
    if (walked.has(node)) return;
    walked.add(node);
    if (node.kind === "step") {
      clauses.add(node.clause);
      for (const symbol in node.inputs) walk(node.inputs[symbol] as Known);
    } else {
      const key = leafKey(node);
      if (!leaves.has(key)) leaves.set(key, node);
    }
  };
  quantities.forEach(walk);
  return { leaves: [...leaves.values()], clauses: [...clauses] };
}

/** Keys of leaves met before: one leaf lies under many findings. */
const leafKeys = new WeakMap<Leaf, string>();

/** The same figure taken by other facts of the job is another leaf: one may rest on an assumption, the other not. */
function leafKey(leaf: Leaf): string {
  if (leaf.kind === "fact") return leaf.path;
  const met = leafKeys.get(leaf);
  if (met !== undefined) return met;
  const { citation, label, chosenBy = [] } = leaf;
  const key = [citation.source, citation.at, label, ...chosenBy.map(({ path }) => path)].join("\n");
  leafKeys.set(leaf, key);
  return key;
}
