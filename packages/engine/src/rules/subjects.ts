import type { SupplyCable, SupplyNode } from "../supply/index.ts";
import type { Missing } from "../worked/index.ts";
import type { Subject } from "./rule.ts";

export const nodeSubject = (node: Pick<SupplyNode, "id" | "label">, field: string): Subject => ({
  id: node.id,
  label: node.label,
  path: `nodes[${node.id}].${field}`,
});

export const cableSubject = (cable: SupplyCable, field: string): Subject => ({
  id: cable.id,
  label: cable.name,
  path: `cables[${cable.id}].run.${field}`,
});

/** The cable itself as something nobody has described yet. */
export function undescribed(cable: SupplyCable): {
  readonly subject: Subject;
  readonly missing: readonly Missing[];
} {
  const path = `cables[${cable.id}].run`;
  return {
    subject: { id: cable.id, label: cable.name, path },
    missing: [{ path, label: `description of the cable ${cable.name}`, what: "fact" }],
  };
}
