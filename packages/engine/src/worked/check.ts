import type { Missing } from "./basis.ts";
import type { Known, Quantity } from "./quantity.ts";

/** A comparison that decides something: `left ≤ right` or `left ≥ right`. */
export interface Check {
  readonly left: Quantity;
  readonly relation: "<=" | ">=";
  readonly right: Quantity;
}

export type CheckResult =
  | { readonly state: "holds" | "broken"; readonly left: Known; readonly right: Known }
  | { readonly state: "unknown"; readonly missing: readonly Missing[] };

/** Equality slack: a sum such as 28.8 + 31.2 must not fail a limit of 60 by its last binary digit. */
const SLACK = 1e-9;

/** Decides a check; unknown on either side leaves it undecided and gathers what is missing. */
export function decide({ left, relation, right }: Check): CheckResult {
  if (left.kind === "unknown" || right.kind === "unknown") {
    const missing = [left, right].flatMap((side) => (side.kind === "unknown" ? side.missing : []));
    return { state: "unknown", missing: [...new Map(missing.map((item) => [item.path, item])).values()] };
  }
  return { state: holds(left.value, relation, right.value) ? "holds" : "broken", left, right };
}

export function holds(left: number, relation: Check["relation"], right: number): boolean {
  const slack = SLACK * Math.max(1, Math.abs(right));
  return relation === "<=" ? left <= right + slack : left >= right - slack;
}
