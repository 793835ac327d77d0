import type { LocatedFact } from "../job/index.ts";
import type { SupplyCable, SupplyTree } from "../supply/index.ts";

/**
 * A path as an earth fault takes it.
 *
 * Tails up to the first split, device or board have no protective conductor of their own: the earthing
 * conductor runs beside them. Where they are recorded with none, it stands in, as long as they are.
 *
 * @param path Cables after the cut-out, supply side first.
 */
export function earthPath(
  tree: SupplyTree,
  path: readonly SupplyCable[],
  earthingConductorMm2: LocatedFact<number>,
): readonly SupplyCable[] {
  const end = path.findIndex((cable) => !isTailsOnly(tree, cable));
  const tails = end < 0 ? path.length : end + 1;
  return path.map((cable, index) => (index < tails ? withEarthing(cable, earthingConductorMm2) : cable));
}

/** True where the tails go on: to a meter, a plain switch or a block that nothing branches from. */
function isTailsOnly(tree: SupplyTree, cable: SupplyCable): boolean {
  const node = tree.node(cable.to);
  const isPlain =
    node.kind === "meter" ||
    node.kind === "connector-block" ||
    (node.kind === "isolator" && node.overcurrent === null);
  return isPlain && tree.cablesBelow(node.id).length === 1;
}

function withEarthing(cable: SupplyCable, earthingConductorMm2: LocatedFact<number>): SupplyCable {
  if (typeof cable.run === "string") return cable;
  const { form } = cable.run.protective;
  const hasNone = form.state === "not-applicable" || (form.state === "known" && form.value === "none");
  if (!hasNone) return cable;
  const { path, guide } = form;
  const separate = { state: "known", value: "separate", basis: "assumed", path, guide } as const;
  return { ...cable, run: { ...cable.run, protective: { form: separate, mm2: earthingConductorMm2 } } };
}
