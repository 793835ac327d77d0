import type { SupplyCable } from "../../supply/index.ts";
import { hasOvercurrent, type Study } from "../study.ts";

/** Described or undescribed cables from the cut-out up to the first device or board, on any leg. */
export function tailsOf({ tree }: Study): readonly SupplyCable[] {
  const found: SupplyCable[] = [];
  const waiting = [...tree.cablesBelow(tree.cutOut.id)].reverse();
  for (let cable = waiting.pop(); cable !== undefined; cable = waiting.pop()) {
    if (cable.run !== "busbar") found.push(cable);
    const node = tree.node(cable.to);
    if (!hasOvercurrent(node) && ["meter", "isolator", "connector-block"].includes(node.kind))
      waiting.push(...[...tree.cablesBelow(cable.to)].reverse());
  }
  return found;
}
