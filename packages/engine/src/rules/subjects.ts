import type { SupplyCable, SupplyNode, SupplyTree } from "../supply/index.ts";
import type { Missing } from "../worked/index.ts";
import type { Subject } from "./rule.ts";

export const nodeSubject = (node: Pick<SupplyNode, "id" | "label">, field: string): Subject => ({
  id: node.id,
  label: node.label,
  path: `nodes[${node.id}].${field}`,
});

/** A cable as people name it: from where to where. */
export const cableName = (tree: SupplyTree, cable: SupplyCable): string =>
  `${tree.node(cable.from).label} to ${tree.node(cable.to).label}`;

export const cableSubject = (tree: SupplyTree, cable: SupplyCable, field: string): Subject => ({
  id: cable.id,
  label: cableName(tree, cable),
  path: `cables[${cable.id}].run.${field}`,
});

/** The cable itself as something nobody has described yet. */
export function undescribed(
  tree: SupplyTree,
  cable: SupplyCable,
): { readonly subject: Subject; readonly missing: readonly Missing[] } {
  const path = `cables[${cable.id}].run`;
  const label = cableName(tree, cable);
  return {
    subject: { id: cable.id, label, path },
    missing: [{ path, label: `description of the cable ${label}`, what: "fact" }],
  };
}
