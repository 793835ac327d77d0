import { given, type Job, type LocatedFact, missing } from "../job/index.ts";
import type { EndNode, NodeOfKind } from "../supply/index.ts";
import { type Citation, type Figures, numberOf, type Quantity, step, total } from "../worked/index.ts";

type Load = NodeOfKind<"load">;
export type Purpose = Load["purpose"];
type Premises = Extract<Job["site"]["premises"], { state: "known" }>["value"];

/** How much of the connected current of one purpose counts. */
export type Allowance =
  /** The same share of all of it. */
  | { readonly kind: "share"; readonly share: number }
  /** The first amperes of the total in full, a share of the rest. */
  | { readonly kind: "first-then-share"; readonly firstA: number; readonly share: number }
  /** Per appliance: the first amperes in full, a share of the rest, and an addition. */
  | { readonly kind: "appliance"; readonly firstA: number; readonly share: number; readonly addedA: number }
  /** Shares by rank: of the largest, the second, and each of the rest by the last share given. */
  | { readonly kind: "ranked"; readonly shares: readonly [number, ...number[]] };

export interface AllowanceTable {
  readonly citation: Citation;
  readonly allowances: Readonly<Record<Purpose, Allowance>>;
}

export type AllowanceTables = Readonly<Record<Exclude<Premises, "other">, AllowanceTable>>;

/**
 * Demand of a set of ends on one line, by the allowances for diversity between final circuits.
 *
 * Charge points and storage count in full: without load control they have no diversity. Generation is
 * taken as not running. The allowances are guidance for one building; figures after diversity between
 * many buildings are another quantity and are never used here.
 *
 * @returns Current on the line. [A]
 *
 * Source: [demand-allowances] table 6.2; [bs7671] 722.311 for charge points.
 */
export function diversifiedDemand(
  ends: readonly EndNode[],
  premises: LocatedFact<Premises>,
  tables: AllowanceTables,
  figures: Figures<"fullShare">,
): Quantity {
  const named = { symbol: "Idiv", label: "demand by circuit list", unit: "A", clause: "diversity" };
  const loads = ends.filter((end): end is Load => end.kind === "load");
  if (loads.length > 0 && premises.state !== "known") {
    return {
      kind: "unknown",
      symbol: named.symbol,
      label: named.label,
      unit: named.unit,
      missing: [missing(premises)],
    };
  }
  const table = tableFor(premises, tables);
  const purposes = [...new Set(loads.map((load) => load.purpose))];
  const groups = purposes.map((purpose) => {
    const group = loads.filter((load) => load.purpose === purpose);
    return table === null ? inFull(group, figures) : allowed(purpose, group, table);
  });
  return total(named, [...groups, ...ends.flatMap(fullCurrent)]);
}

/** Current per line that an end counts in full, where it has no diversity. */
function fullCurrent(end: EndNode): readonly Quantity[] {
  if (end.kind === "charge-point") return [given(end.ratedA, "Icp", `${end.label}, rated current`)];
  if (end.kind === "storage" && end.importA.state !== "not-applicable")
    return [given(end.importA, "Ist", `${end.label}, charging current`)];
  return [];
}

function tableFor(premises: LocatedFact<Premises>, tables: AllowanceTables): AllowanceTable | null {
  return premises.state === "known" && premises.value !== "other" ? tables[premises.value] : null;
}

const connected = (load: Load): Quantity => given(load.ratedA, "I", `${load.label}, full-load current`);

/** Premises without a table: everything counts in full. */
function inFull(group: readonly Load[], figures: Figures<"fullShare">): Quantity {
  return step({
    symbol: "Ig",
    label: "connected current, no allowance for these premises",
    unit: "A",
    clause: "diversity",
    formula: "s * C",
    inputs: { s: figures("fullShare"), C: connectedTotal(group) },
    compute: ({ s, C }) => s * C,
  });
}

const connectedTotal = (group: readonly Load[]): Quantity =>
  total({ symbol: "C", label: "connected current", unit: "A", clause: "diversity" }, group.map(connected));

function allowed(purpose: Purpose, group: readonly Load[], table: AllowanceTable): Quantity {
  const named = {
    symbol: "Ig",
    label: `allowed for ${purpose.replaceAll("-", " ")}`,
    unit: "A",
    clause: "diversity",
  };
  const allowance = table.allowances[purpose];
  const figure = (symbol: string, label: string, value: number, unit = ""): Quantity => ({
    kind: "figure",
    symbol,
    label: `${label}, ${purpose.replaceAll("-", " ")}`,
    unit,
    value,
    citation: table.citation,
  });
  switch (allowance.kind) {
    case "share":
      return step({
        ...named,
        formula: "s * C",
        inputs: { s: figure("s", "share counted", allowance.share), C: connectedTotal(group) },
        compute: ({ s, C }) => s * C,
      });
    case "first-then-share":
      return step({
        ...named,
        formula: "min(C, f) + s * max(C - f, 0)",
        inputs: {
          C: connectedTotal(group),
          f: figure("f", "counted in full up to", allowance.firstA, "A"),
          s: figure("s", "share of the rest", allowance.share),
        },
        compute: ({ C, f, s }) => Math.min(C, f) + s * Math.max(C - f, 0),
      });
    case "appliance":
      return total(
        named,
        group.map((load) =>
          step({
            ...named,
            symbol: "Ia",
            label: `allowed for ${load.label}`,
            formula: "min(I, f) + s * max(I - f, 0) + a",
            inputs: {
              I: connected(load),
              f: figure("f", "counted in full up to", allowance.firstA, "A"),
              s: figure("s", "share of the rest", allowance.share),
              a: figure("a", "added for a socket in the control unit", allowance.addedA, "A"),
            },
            compute: ({ I, f, s, a }) => Math.min(I, f) + s * Math.max(I - f, 0) + a,
          }),
        ),
      );
    case "ranked":
      return ranked(named, group, allowance.shares, figure);
  }
}

function ranked(
  named: { symbol: string; label: string; unit: string; clause: string },
  group: readonly Load[],
  shares: readonly [number, ...number[]],
  figure: (symbol: string, label: string, value: number) => Quantity,
): Quantity {
  const bySize = group.map(connected).sort((a, b) => numberOf(b) - numberOf(a));
  const share = (rank: number): number => shares[Math.min(rank, shares.length - 1)] as number;
  const rankName = (rank: number): string => ["largest", "second"][rank] ?? "each of the rest";
  return total(
    named,
    bySize.map((current, rank) =>
      step({
        ...named,
        symbol: "Ir",
        label: `counted of ${current.label}`,
        formula: "s * I",
        inputs: { s: figure("s", `share of the ${rankName(rank)}`, share(rank)), I: current },
        compute: ({ s, I }) => s * I,
      }),
    ),
  );
}
