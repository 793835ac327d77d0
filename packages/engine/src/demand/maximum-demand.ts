import { given, type Located, type Job } from "../job/index.ts";
import type { Line } from "../quantities/index.ts";
import type { NodeOfKind, SupplyTree } from "../supply/index.ts";
import { type Quantity, step, total } from "../worked/index.ts";
import type { ExistingDemand } from "./existing-demand.ts";

type ChargePoint = NodeOfKind<"charge-point">;

/** Demand of one line, the two ways an operator may judge it. */
export interface LineDemand {
  readonly line: Line;
  readonly existing: ExistingDemand;
  /** Rated current of every charge point on the line. [A] */
  readonly chargePoints: Quantity;
  /** Everything at once, as if nothing were turned down. [A] */
  readonly unmanaged: Quantity;
  /** With the load manager holding its limit; null without one. [A] */
  readonly managed: Quantity | null;
}

/**
 * Maximum demand of a line, unmanaged and managed.
 *
 *     unmanaged:  Iex + Icp
 *     managed:    max(Iex + Ifree, min(Iex + Icp, limit))
 *
 * A load manager can turn down what it governs and nothing else: where the building and the charge
 * points outside its reach already exceed the limit, the managed demand exceeds it too. Iex is the high
 * end of the existing demand's band.
 *
 * @param limit Current the load manager holds the line to; null when there is no load manager. [A]
 */
export function lineDemand(
  tree: SupplyTree,
  existing: ExistingDemand,
  limiter: Located<NonNullable<Job["limiter"]>> | null,
  limit: Quantity | null,
): LineDemand {
  const { line } = existing;
  const points = tree
    .endsCarried(tree.serviceCable, line)
    .filter((end): end is ChargePoint => end.kind === "charge-point");
  const isGoverned = (point: ChargePoint): boolean => limiter?.chargePoints.includes(point.id) ?? false;
  const rated = (point: ChargePoint): Quantity => ({ ...given(point.ratedA, "I"), label: `${point.label}, rated current` });
  const sum = (symbol: string, label: string, members: readonly ChargePoint[]): Quantity =>
    total({ symbol, label, unit: "A", clause: "charge-point-demand" }, members.map(rated));

  const Icp = sum("Icp", "charge points on the line", points);
  const Iex = { ...existing.used.high, symbol: "Iex" };
  const unmanaged = step({
    symbol: "MDu",
    label: `maximum demand on ${line}, unmanaged`,
    unit: "A",
    clause: "maximum-demand",
    formula: "Iex + Icp",
    inputs: { Iex, Icp },
    compute: ({ Iex, Icp }) => Iex + Icp,
  });
  if (limiter === null || limit === null) return { line, existing, chargePoints: Icp, unmanaged, managed: null };
  const Ifree = sum("Ifree", "charge points the load manager does not govern", points.filter((point) => !isGoverned(point)));
  const managed = step({
    symbol: "MDm",
    label: `maximum demand on ${line}, managed`,
    unit: "A",
    clause: "managed-demand",
    formula: "max(Iex + Ifree, min(Iex + Icp, limit))",
    inputs: { Iex, Ifree, Icp, limit },
    compute: ({ Iex, Ifree, Icp, limit }) => Math.max(Iex + Ifree, Math.min(Iex + Icp, limit)),
  });
  return { line, existing, chargePoints: Icp, unmanaged, managed };
}
