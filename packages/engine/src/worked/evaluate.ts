import type { Known } from "./quantity.ts";

/**
 * The value a quantity would have if one fact of the job had another value.
 *
 * Only numbers are reworked: a table row or a method chosen on the way stays as it was chosen.
 */
export function valueIf(quantity: Known, path: string, factValue: number): number {
  const reworked = new Map<Known, number>();
  const rework = (node: Known): number => {
    if (node.kind === "figure") return node.value;
    if (node.kind === "fact") return node.path === path ? factValue : node.value;
    const known = reworked.get(node);
    if (known !== undefined) return known;
    const inputs = Object.entries(node.inputs).map(([symbol, input]) => [symbol, rework(input)]);
    const value = node.compute(Object.fromEntries(inputs));
    reworked.set(node, value);
    return value;
  };
  return rework(quantity);
}

export type Leaf = Exclude<Known, { kind: "step" }>;

/** Every fact and figure at the ends of the working, each once, in reading order. */
export function leavesOf(quantity: Known): readonly Leaf[] {
  const leaves = new Map<string, Leaf>();
  const walked = new Set<Known>();
  const walk = (node: Known): void => {
    if (walked.has(node)) return;
    walked.add(node);
    if (node.kind === "step") for (const input of Object.values(node.inputs)) walk(input);
    else leaves.set(leafKey(node), node);
  };
  walk(quantity);
  return [...leaves.values()];
}

/** The same figure taken by other facts of the job is another leaf: one may rest on an assumption, the other not. */
const leafKey = (leaf: Leaf): string =>
  leaf.kind === "fact"
    ? leaf.path
    : [
        leaf.citation.source,
        leaf.citation.at,
        leaf.label,
        ...(leaf.chosenBy ?? []).map(({ path }) => path),
      ].join("\n");
