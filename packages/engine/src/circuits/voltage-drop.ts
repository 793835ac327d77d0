import { chosenRow, given, type LocatedFact } from "../job/index.ts";
import type { SupplyCable } from "../supply/index.ts";
import { type Figures, isKnown, type Quantity, step, total } from "../worked/index.ts";
import { type CableRun, notSurveyed, ratedAs, smallerLive } from "./cable-run.ts";
import { type CapacityFigure, ratingFactors, tabulatedCapacity } from "./capacity.ts";
import { type ConductorFigure, operatingTemperature } from "./conductor.ts";
import type { CircuitTables, VoltageDropTable } from "./tables.ts";

export type VoltageDropFigure = ConductorFigure | CapacityFigure | "chargePointPowerFactor" | "noFactor";

/**
 * Voltage drop from the resistive and reactive parts of a tabulated figure.
 *
 *     Vd = (r · cosφ + x · sinφ) · I · L / 1000
 *
 * @param drop.rMvPerAm Resistive part, or the single figure of a small cable. [mV/(A·m)]
 * @param drop.xMvPerAm Reactive part; 0 for a small cable. [mV/(A·m)]
 * @param drop.powerFactor cosφ, lagging; 1 where a single figure is used. [–]
 * @returns In the sense of the table: between lines for three loaded conductors, along line and neutral for two. [V]
 *
 * Source: [bs7671] Appendix 4, section 6.
 *
 * @example
 * tabulatedDropV({ rMvPerAm: 7.3, xMvPerAm: 0, powerFactor: 1, currentA: 32, lengthM: 20 }); // → 4.672
 */
export function tabulatedDropV(drop: {
  readonly rMvPerAm: number;
  readonly xMvPerAm: number;
  readonly powerFactor: number;
  readonly currentA: number;
  readonly lengthM: number;
}): number {
  const { rMvPerAm, xMvPerAm, powerFactor, currentA, lengthM } = drop;
  return ((rMvPerAm * powerFactor + xMvPerAm * Math.sqrt(1 - powerFactor ** 2)) * currentA * lengthM) / 1000;
}

/** A length of the path with the current it carries. */
export interface LoadedCable {
  readonly cable: SupplyCable;
  /** Current per line. [A] */
  readonly current: Quantity;
}

/**
 * Voltage drop from the supply terminals to the end of a path, line to neutral.
 *
 * @param path Cables after the supply terminals, supply side first, each with its own current.
 * @param loadLineCount Lines the load at the end uses. A single-phase load on a three-phase cable is
 *   taken to return all its current in the neutral, which counts where it is the smaller; a three-phase load none.
 */
export function voltageDrop(path: readonly LoadedCable[], loadLineCount: number, dropOf: DropOf): Quantity {
  const drops = path.map((part) => dropOf(part, loadLineCount)).filter((drop) => drop !== null);
  return total(
    { symbol: "Vd", label: "voltage drop, line to neutral", unit: "V", clause: "voltage-drop" },
    drops,
  );
}

/** Drop along one length under a load on so many lines. Null for a busbar. */
export type DropOf = (part: LoadedCable, loadLineCount: number) => Quantity | null;

/** The drop of each length, worked out once however many paths lead through it. */
export function cableDrops(tables: CircuitTables, figures: Figures<VoltageDropFigure>): DropOf {
  const worked = new Map<LoadedCable, Map<number, Quantity | null>>();
  return (part, loadLineCount) => {
    const byCount = worked.get(part) ?? new Map<number, Quantity | null>();
    worked.set(part, byCount);
    const known = byCount.get(loadLineCount);
    if (known !== undefined) return known;
    const drop = cableDrop(part, loadLineCount, tables, figures);
    byCount.set(loadLineCount, drop);
    return drop;
  };
}

/**
 * Voltage drop along one cable.
 *
 *     up to 16 mm²:  Vd = share · Ct · mV · I · L / 1000
 *     above:         Vd = share · (Ct · r · cosφ + x · sinφ) · I · L / 1000
 *
 * mV, r and x tabulated; share turns a three-phase table's line-to-line drop into line to neutral.
 * Source: [bs7671] Appendix 4, section 6.
 */
function cableDrop(
  { cable, current }: LoadedCable,
  loadLineCount: number,
  tables: CircuitTables,
  figures: Figures<VoltageDropFigure>,
): Quantity | null {
  if (cable.run === "busbar") return null;
  const named = { symbol: "Vd", label: `voltage drop in ${cable.name}`, unit: "V" };
  if (cable.run === "not-surveyed") return notSurveyed(cable, named);
  const { run } = cable;
  const loaded = cable.lines.length === 1 ? 2 : 3;
  const share = tableShare(loaded, loadLineCount);
  const Ct = loadedCorrection(run, loaded, current, tables, figures);
  const L = given(run.lengthM, "L");
  const size = loadLineCount === 1 ? smallerLive(run) : run.lineMm2;
  const table = (part: "r" | "x") => tabulatedDrop(run, size, loaded, part, tables);
  const isSmall = size.state !== "known" || size.value <= 16;
  if (isSmall) {
    return step({
      ...named,
      clause: "voltage-drop",
      formula: `${share.formula}Ct * mV * I * L / 1000`,
      inputs: { Ct, mV: table("r"), I: current, L },
      compute: ({ Ct, mV, I, L }) =>
        share.value *
        tabulatedDropV({ rMvPerAm: Ct * mV, xMvPerAm: 0, powerFactor: 1, currentA: I, lengthM: L }),
    });
  }
  return step({
    ...named,
    clause: "voltage-drop",
    formula: `${share.formula}(Ct * r * pf + x * sqrt(1 - pf^2)) * I * L / 1000`,
    inputs: { Ct, r: table("r"), x: table("x"), pf: figures("chargePointPowerFactor"), I: current, L },
    compute: ({ Ct, r, x, pf, I, L }) =>
      share.value *
      tabulatedDropV({ rMvPerAm: Ct * r, xMvPerAm: x, powerFactor: pf, currentA: I, lengthM: L }),
  });
}

/** Part of the tabulated drop that is line to neutral at the load: as a factor at the head of the formula. */
function tableShare(loaded: 2 | 3, loadLineCount: number): { formula: string; value: number } {
  if (loaded === 2) return { formula: "", value: 1 };
  return loadLineCount === 3
    ? { formula: "1 / sqrt(3) * ", value: 1 / Math.sqrt(3) }
    : { formula: "2 / sqrt(3) * ", value: 2 / Math.sqrt(3) };
}

function tabulatedDrop(
  run: CableRun,
  size: LocatedFact<number>,
  loaded: 2 | 3,
  part: "r" | "x",
  tables: CircuitTables,
): Quantity {
  const column = { r: 1, x: 2 } as const;
  return chosenRow(
    {
      symbol: part,
      label: part === "r" ? "tabulated voltage drop" : "tabulated voltage drop, reactive part",
      unit: "mV/(A·m)",
    },
    {
      mm2: size,
      construction: run.construction,
      insulation: run.insulation,
      terminalC: run.terminalC,
      method: run.method,
      metal: run.metal,
    },
    ({ mm2, construction, method, metal }) => {
      const insulation = ratedAs(run);
      const fits = (table: VoltageDropTable): boolean =>
        table.construction === construction &&
        table.insulation === insulation &&
        table.loaded === loaded &&
        (table.methods?.includes(method) ?? true);
      const table = tables.voltageDrop.find(fits);
      const value = table?.rows.find(([size]) => size === mm2)?.[column[part]];
      if (metal !== "copper" || table === undefined || value === undefined || value === null)
        return undefined;
      return { value, citation: table.citation };
    },
  );
}

/**
 * Correction for a cable that runs cooler than its table supposes because it is partly loaded.
 *
 *     Ct = (230 + θ − (Ca² · Cg² − I² / It²) · (θ − 30)) / (230 + θ)
 *
 * Taken as 1, the safe side, in the ground and wherever a factor is not known; a factor Ca above 1
 * counts as 1. Source: [bs7671] Appendix 4, section 6.1.
 */
export function loadedCorrection(
  run: CableRun,
  loaded: 2 | 3,
  current: Quantity,
  tables: CircuitTables,
  figures: Figures<VoltageDropFigure>,
): Quantity {
  const named = { symbol: "Ct", label: "correction for a partly loaded cable", unit: "" };
  const uncorrected: Quantity = { ...figures("noFactor"), ...named };
  if (run.method.state !== "known" || run.method.value === "D") return uncorrected;
  const { Ca, Cg } = ratingFactors(run, tables, figures);
  const corrected = step({
    ...named,
    clause: "partly-loaded-correction",
    formula: "min(1, (230 + θ - (min(Ca, 1)^2 * Cg^2 - I^2 / It^2) * (θ - 30)) / (230 + θ))",
    inputs: {
      θ: operatingTemperature(run, figures),
      Ca,
      Cg,
      I: current,
      It: tabulatedCapacity(run, loaded, tables),
    },
    compute: ({ θ, Ca, Cg, I, It }) =>
      Math.min(1, (230 + θ - (Math.min(Ca, 1) ** 2 * Cg ** 2 - I ** 2 / It ** 2) * (θ - 30)) / (230 + θ)),
  });
  return isKnown(corrected) || !isKnown(current) ? corrected : uncorrected;
}
