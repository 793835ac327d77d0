import { given } from "../job/index.ts";
import type { Line } from "../quantities/index.ts";
import type { NodeOfKind, SupplyTree } from "../supply/index.ts";
import { type Quantity, step, total } from "../worked/index.ts";
import type { Band, ExistingDemand } from "./existing-demand.ts";

type ChargePoint = NodeOfKind<"charge-point">;

/** Demand of one line, the two ways an operator may judge it. */
export interface LineDemand {
  readonly line: Line;
  readonly existing: ExistingDemand;
  /** Rated current of every charge point on the line. [A] */
  readonly chargePoints: Quantity;
  /** Everything at once, as if nothing were turned down. [A] */
  readonly unmanaged: Band;
  /** With the load manager holding its limit; null without one. [A] */
  readonly managed: Band | null;
}

/**
 * Maximum demand of a line, unmanaged and managed, each for the low and the high end of the existing demand.
 *
 *     unmanaged:  Iex + Icp
 *     managed:    max(Iex + Ifree, min(Iex + Icp, Ilim))
 *
 * A load manager can turn down what it governs and nothing else: where the building and the charge
 * points outside its reach already exceed the limit, the managed demand exceeds it too.
 *
 * @param limit Current the load manager holds the line to. [A]
 */
export function lineDemand(
  tree: SupplyTree,
  existing: ExistingDemand,
  management: { readonly governs: readonly string[]; readonly limit: Quantity } | null,
): LineDemand {
  const { line } = existing;
  const points = tree
    .endsCarried(tree.serviceCable, line)
    .filter((end): end is ChargePoint => end.kind === "charge-point");
  const Icp = pointTotal("Icp", "charge points on the line", points);
  const unmanaged = (which: keyof Band): Quantity =>
    step({
      symbol: "MDu",
      label: `maximum demand on ${line}, unmanaged, ${which} end`,
      unit: "A",
      clause: "maximum-demand",
      formula: "Iex + Icp",
      inputs: { Iex: existing.used[which], Icp },
      compute: ({ Iex, Icp }) => Iex + Icp,
    });
  const band = { low: unmanaged("low"), high: unmanaged("high") };
  if (management === null) return { line, existing, chargePoints: Icp, unmanaged: band, managed: null };

  const Ifree = ungoverned(points, management.governs);
  const managed = (which: keyof Band): Quantity =>
    step({
      symbol: "MDm",
      label: `maximum demand on ${line}, managed, ${which} end`,
      unit: "A",
      clause: "managed-demand",
      formula: "max(Iex + Ifree, min(Iex + Icp, Ilim))",
      inputs: { Iex: existing.used[which], Ifree, Icp, Ilim: management.limit },
      compute: ({ Iex, Ifree, Icp, Ilim }) => Math.max(Iex + Ifree, Math.min(Iex + Icp, Ilim)),
    });
  return {
    line,
    existing,
    chargePoints: Icp,
    unmanaged: band,
    managed: { low: managed("low"), high: managed("high") },
  };
}

/** Rated current of the charge points a load manager does not govern. */
export const ungoverned = (points: readonly ChargePoint[], governs: readonly string[]): Quantity =>
  pointTotal(
    "Ifree",
    "charge points the load manager does not govern",
    points.filter(({ id }) => !governs.includes(id)),
  );

const pointTotal = (symbol: string, label: string, points: readonly ChargePoint[]): Quantity =>
  total(
    { symbol, label, unit: "A", clause: "charge-point-demand" },
    points.map((point) => given(point.ratedA, "I", `${point.label}, rated current`)),
  );
