import { chosenRow, type LocatedFact } from "../job/index.ts";
import { type Citation, type Figures, type Quantity, step } from "../worked/index.ts";
import { type CableRun, ratedAs, smallerLive } from "./cable-run.ts";
import type { CapacityTable, CircuitTables, FactorTable } from "./tables.ts";

export type CapacityFigure = "semiEnclosedFuseFactor" | "buriedOverloadFactor" | "noFactor";

/**
 * Current a cable carries continuously as it is laid.
 *
 *     Iz = It · Ca · Cg · Ci · Cs · Cd
 *
 * It tabulated for size, method and loaded conductors; Ca ambient, Cg grouping, Ci thermal insulation,
 * Cs soil, Cd depth. Every factor is shown, also where it is 1. A factor argument between two rows takes
 * the harsher row. A charge point is a continuous load: no credit for time.
 *
 * Source: [bs7671] Appendix 4, [iec60364-5-52] Annex B.
 */
export function currentCapacity(
  run: CableRun,
  loaded: 2 | 3,
  tables: CircuitTables,
  figures: Figures<CapacityFigure>,
): Quantity {
  return step({
    symbol: "Iz",
    label: "current-carrying capacity as laid",
    unit: "A",
    clause: "current-carrying-capacity",
    formula: "It * Ca * Cg * Ci * Cs * Cd",
    inputs: { It: tabulatedCapacity(run, loaded, tables), ...ratingFactors(run, tables, figures) },
    compute: ({ It, Ca, Cg, Ci, Cs, Cd }) => It * Ca * Cg * Ci * Cs * Cd,
  });
}

/** Capacity of one circuit of the cable at the reference ambient, as printed; with two loaded conductors of the smaller. */
export function tabulatedCapacity(run: CableRun, loaded: 2 | 3, tables: CircuitTables): Quantity {
  return chosenRow(
    { symbol: "It", label: "tabulated current-carrying capacity", unit: "A" },
    {
      mm2: loaded === 2 ? smallerLive(run) : run.lineMm2,
      construction: run.construction,
      insulation: run.insulation,
      terminalC: run.terminalC,
      method: run.method,
      metal: run.metal,
    },
    ({ mm2, construction, method, metal }) => {
      const insulation = ratedAs(run);
      const columnIn = (item: CapacityTable) =>
        item.columns.findIndex(([name, count]) => name === method && count === loaded);
      const table = tables.capacity.find(
        (item) => item.construction === construction && item.insulation === insulation && columnIn(item) >= 0,
      );
      const column = table === undefined ? -1 : columnIn(table);
      const value = column < 0 ? null : table?.rows.find(([size]) => size === mm2)?.[column + 1];
      if (metal !== "copper" || table === undefined || value === null || value === undefined)
        return undefined;
      return { value, citation: table.citation };
    },
  );
}

/** The factors by which a cable's tabulated capacity is changed, each with its row. */
export function ratingFactors(run: CableRun, tables: CircuitTables, figures: Figures<CapacityFigure>) {
  const inGround = run.method.state === "known" && run.method.value === "D";
  const one = (symbol: string, label: string): Quantity => ({ ...figures("noFactor"), symbol, label });
  const insulation = ratedAs(run);
  return {
    Ca: factor(
      "Ca",
      "ambient temperature factor",
      run.ambientC,
      insulation && (inGround ? tables.ambientInGround : tables.ambientInAir)[insulation],
      [run.insulation, run.terminalC, run.method],
    ),
    Cg: isAlone(run)
      ? factorOfOne("Cg", "grouping factor", run.groupedCircuits, figures)
      : groupingFactor(run, tables),
    Ci: factor("Ci", "thermal insulation factor", run.inInsulationMm, tables.inInsulation),
    Cs: inGround
      ? factor("Cs", "soil factor", run.soilThermalResistivityKmW, tables.soil)
      : one("Cs", "soil factor"),
    Cd: inGround ? factor("Cd", "depth factor", run.burialDepthM, tables.depth) : one("Cd", "depth factor"),
  };
}

const isAlone = (run: CableRun): boolean =>
  run.groupedCircuits.state === "known" && run.groupedCircuits.value === 1;

function groupingFactor(run: CableRun, tables: CircuitTables): Quantity {
  return chosenRow(
    { symbol: "Cg", label: "grouping factor", unit: "" },
    { circuits: run.groupedCircuits, grouping: run.grouping },
    ({ circuits, grouping }) => rowFor(tables.grouping[grouping], circuits),
  );
}

function factorOfOne(
  symbol: string,
  label: string,
  fact: LocatedFact<number>,
  figures: Figures<CapacityFigure>,
): Quantity {
  return chosenRow({ symbol, label, unit: "" }, { fact }, () => {
    const one = figures("noFactor");
    return one.kind === "figure" ? one : undefined;
  });
}

function factor(
  symbol: string,
  label: string,
  argument: LocatedFact<number>,
  table: FactorTable | null,
  alsoChosenBy: readonly LocatedFact<string | number>[] = [],
): Quantity {
  const facts = Object.fromEntries([argument, ...alsoChosenBy].map((fact, index) => [`f${index}`, fact]));
  return chosenRow({ symbol, label, unit: "" }, facts, () =>
    argument.state === "known" && table !== null ? rowFor(table, argument.value) : undefined,
  );
}

/** The row for an argument, or the next harsher one; undefined beyond the harsh end of the table. */
export function rowFor(
  table: FactorTable,
  argument: number,
): { value: number; citation: Citation } | undefined {
  const { rows, citation, falls } = table;
  const row = falls ? rows.find(([at]) => at >= argument) : rows.findLast(([at]) => at <= argument);
  return row === undefined ? undefined : { value: row[1], citation };
}
