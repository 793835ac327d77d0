/**
 * Loops: line with protective conductor for earth faults, line with neutral for short circuits.
 *
 * Impedances along a path are added as magnitudes, which is never less than the true sum, so an earth
 * fault current is never overstated. Where the *greatest* current is wanted the least sum is taken
 * instead (see `prospectiveAt`).
 *
 * @module
 */
import { type LocatedFact, missing } from "../job/index.ts";
import type { SupplyCable } from "../supply/index.ts";
import { type Figures, type Quantity, step, total } from "../worked/index.ts";
import { type CableRun, notSurveyed } from "./cable-run.ts";
import { armourResistance, type ConductorFigure, conductorResistance, type Warmth } from "./conductor.ts";
import type { CircuitTables } from "./tables.ts";

/** Line plus protective conductor of one cable: R1 + R2. Null for a busbar, which adds nothing. */
export function earthLoop(
  cable: SupplyCable,
  warmth: Warmth,
  tables: CircuitTables,
  figures: Figures<ConductorFigure>,
): Quantity | null {
  const named = { symbol: "R1R2", label: `R1 + R2 of ${cable.name}`, unit: "Ω" };
  if (cable.run === "busbar") return null;
  if (cable.run === "not-surveyed") return notSurveyed(cable, named);
  const R1 = conductorResistance(cable.run, cable.run.lineMm2, "R1", warmth, tables, figures);
  const R2 = protectiveResistance(cable.run, cable.lines.length, warmth, tables, figures);
  return step({
    ...named,
    clause: "earth-fault-loop",
    formula: "R1 + R2",
    inputs: { R1, R2 },
    compute: ({ R1, R2 }) => R1 + R2,
  });
}

/** Line plus neutral of one cable, one way each. Null for a busbar. */
export function neutralLoop(
  cable: SupplyCable,
  warmth: Warmth,
  tables: CircuitTables,
  figures: Figures<ConductorFigure>,
): Quantity | null {
  const named = { symbol: "R1Rn", label: `R1 + Rn of ${cable.name}`, unit: "Ω" };
  if (cable.run === "busbar") return null;
  if (cable.run === "not-surveyed") return notSurveyed(cable, named);
  const R1 = conductorResistance(cable.run, cable.run.lineMm2, "R1", warmth, tables, figures);
  const Rn = conductorResistance(cable.run, cable.run.neutralMm2, "Rn", warmth, tables, figures);
  return step({
    ...named,
    clause: "prospective-fault-current",
    formula: "R1 + Rn",
    inputs: { R1, Rn },
    compute: ({ R1, Rn }) => R1 + Rn,
  });
}

/** What each cable adds to a loop, worked out once however many paths lead through it. */
export interface CableLoops {
  readonly earth: (cable: SupplyCable, warmth: Warmth) => Quantity | null;
  /** Line and neutral, cold. */
  readonly neutral: (cable: SupplyCable) => Quantity | null;
  /** One line conductor, cold. */
  readonly line: (cable: SupplyCable) => Quantity | null;
}

export function cableLoops(tables: CircuitTables, figures: Figures<ConductorFigure>): CableLoops {
  const hot = oncePerCable((cable) => earthLoop(cable, "hot", tables, figures));
  const cold = oncePerCable((cable) => earthLoop(cable, "cold", tables, figures));
  return {
    earth: (cable, warmth) => (warmth === "hot" ? hot : cold)(cable),
    neutral: oncePerCable((cable) => neutralLoop(cable, "cold", tables, figures)),
    line: oncePerCable((cable) => lineAlone(cable, tables, figures)),
  };
}

function oncePerCable(work: (cable: SupplyCable) => Quantity | null): typeof work {
  const worked = new Map<SupplyCable, Quantity | null>();
  return (cable) => {
    const known = worked.get(cable);
    if (known !== undefined) return known;
    const part = work(cable);
    worked.set(cable, part);
    return part;
  };
}

/**
 * Earth fault loop impedance at the end of a path.
 *
 *     Zs = Ze + Σ (R1 + R2)
 *
 * @param path Cables after the place at which Ze holds, supply side first.
 */
export function earthFaultLoop(
  ze: Quantity,
  path: readonly SupplyCable[],
  warmth: Warmth,
  loops: CableLoops,
): Quantity {
  const parts = path.map((cable) => loops.earth(cable, warmth)).filter((loop) => loop !== null);
  return total(
    { symbol: "Zs", label: `earth fault loop impedance, ${warmth}`, unit: "Ω", clause: "earth-fault-loop" },
    [ze, ...parts],
  );
}

/**
 * Least earth fault current: `If = Cmin · U0 / Zs`.
 */
export function earthFaultCurrent(
  zs: Quantity,
  u0: Quantity,
  figures: Figures<"minVoltageFactor">,
): Quantity {
  return step({
    symbol: "If",
    label: "least earth fault current",
    unit: "A",
    clause: "earth-fault-current",
    formula: "Cmin * U0 / Zs",
    inputs: { Cmin: figures("minVoltageFactor"), U0: u0, Zs: zs },
    compute: ({ Cmin, U0, Zs }) => (Cmin * U0) / Zs,
  });
}

/**
 * Greatest prospective short-circuit current at the end of a path, from that at the origin.
 *
 *     Z0 = Cmax · U0 / (1000 · I0)
 *     I  = Cmax · U0 / (1000 · √(Z0² + R²))   with R = Σ (R1 + Rn), cold
 *
 * The supply's angle is not known; the root of squares is the least the two can add up to, so the
 * current is never understated. Line to neutral; between lines on three phases the current at the origin
 * is that of three phases and R counts the line conductor alone.
 */
export function prospectiveAt(
  originKa: Quantity,
  u0: Quantity,
  path: readonly SupplyCable[],
  loops: CableLoops,
  figures: Figures<"maxVoltageFactor">,
): Quantity {
  const isThreePhase = path.at(-1)?.lines.length === 3;
  const parts = path
    .map((cable) => (isThreePhase ? loops.line(cable) : loops.neutral(cable)))
    .filter((part) => part !== null);
  const R = total(
    {
      symbol: "R",
      label: "least conductor resistance on the way",
      unit: "Ω",
      clause: "prospective-fault-current",
    },
    parts,
  );
  const Cmax = figures("maxVoltageFactor");
  const Z0 = step({
    symbol: "Z0",
    label: "supply impedance at the origin",
    unit: "Ω",
    clause: "prospective-fault-current",
    formula: "Cmax * U0 / (1000 * I0)",
    inputs: { Cmax, U0: u0, I0: originKa },
    compute: ({ Cmax, U0, I0 }) => (Cmax * U0) / (1000 * I0),
  });
  return step({
    symbol: "Ipf",
    label: "greatest prospective fault current here",
    unit: "kA",
    clause: "prospective-fault-current",
    formula: "Cmax * U0 / (1000 * sqrt(Z0^2 + R^2))",
    inputs: { Cmax, U0: u0, Z0, R },
    compute: ({ Cmax, U0, Z0, R }) => (Cmax * U0) / (1000 * Math.hypot(Z0, R)),
  });
}

function lineAlone(
  cable: SupplyCable,
  tables: CircuitTables,
  figures: Figures<ConductorFigure>,
): Quantity | null {
  if (cable.run === "busbar") return null;
  if (cable.run === "not-surveyed") {
    return notSurveyed(cable, { symbol: "R1", label: `line conductor of ${cable.name}`, unit: "Ω" });
  }
  return conductorResistance(cable.run, cable.run.lineMm2, "R1", "cold", tables, figures);
}

function protectiveResistance(
  run: CableRun,
  lineCount: number,
  warmth: Warmth,
  tables: CircuitTables,
  figures: Figures<ConductorFigure>,
): Quantity {
  const { form, mm2 } = run.protective;
  if (form.state !== "known") return unknownProtective(form);
  if (form.value === "none") {
    return {
      kind: "unknown",
      symbol: "R2",
      label: "protective conductor resistance",
      unit: "Ω",
      missing: [
        {
          path: form.path,
          label: "a protective conductor: the cable is recorded as having none",
          what: "fact",
        },
      ],
    };
  }
  if (form.value === "armour") {
    const coreCount = lineCount === 3 ? 4 : lineCount === 2 ? 3 : 2;
    return armourResistance(run, coreCount, "R2", warmth, tables, figures);
  }
  return conductorResistance(run, mm2, "R2", warmth, tables, figures);
}

const unknownProtective = (fact: LocatedFact<unknown>): Quantity => ({
  kind: "unknown",
  symbol: "R2",
  label: "protective conductor resistance",
  unit: "Ω",
  missing: [missing(fact)],
});
