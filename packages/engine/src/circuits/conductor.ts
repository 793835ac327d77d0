import { chosenRow, given, type LocatedFact } from "../job/index.ts";
import { type Figures, type Quantity, step } from "../worked/index.ts";
import { type CableRun, ratedAs } from "./cable-run.ts";
import type { CircuitTables } from "./tables.ts";

export type ConductorFigure =
  | "copperTemperatureCoefficient"
  | "coldTemperature"
  | "thermoplasticTemperature"
  | "thermosettingTemperature";

/** At which temperature a resistance is wanted: cold as measured, or as hot as the cable may run. */
export type Warmth = "cold" | "hot";

/**
 * Greatest resistance of one conductor of a cable, one way.
 *
 *     cold:  R = r20 · L / 1000
 *     hot:   R = r20 · L / 1000 · (1 + α · (θ − θ20))
 *
 * Hot means the temperature the cable is rated to: that of its insulation, or 70 °C where the terminals
 * allow no more. Copper only: for aluminium there is no table yet and the result is unknown.
 *
 * Source: [iec60228] for r20, [iec60287] for α.
 */
export function conductorResistance(
  run: CableRun,
  size: LocatedFact<number>,
  symbol: string,
  warmth: Warmth,
  tables: CircuitTables,
  figures: Figures<ConductorFigure>,
): Quantity {
  const inputs = { r20: resistancePerKm(run, size, tables), L: given(run.lengthM, "L") };
  return atTemperature({ symbol, label: `${size.guide.title} resistance`, inputs, run, warmth, figures });
}

/** The same for the steel armour of a cable used as its protective conductor; up to 6 mm² is tabulated. */
export function armourResistance(
  run: CableRun,
  coreCount: 2 | 3 | 4 | 5,
  symbol: string,
  warmth: Warmth,
  tables: CircuitTables,
  figures: Figures<ConductorFigure>,
): Quantity {
  const r20 = chosenRow(
    { symbol: "r20", label: `armour resistance at 20 °C, ${coreCount} cores`, unit: "Ω/km" },
    { mm2: run.lineMm2, construction: run.construction },
    ({ mm2 }) => {
      const value = tables.armour.rows.find(([size]) => size === mm2)?.[coreCount - 1];
      return value === undefined ? undefined : { value, citation: tables.armour.citation };
    },
  );
  return atTemperature({
    symbol,
    label: "armour resistance",
    inputs: { r20, L: given(run.lengthM, "L") },
    run,
    warmth,
    figures,
  });
}

/** Temperature the conductors may reach in normal use, from the insulation and the terminals. */
export function operatingTemperature(run: CableRun, figures: Figures<ConductorFigure>): Quantity {
  return chosenRow(
    { symbol: "θ", label: "conductor operating temperature", unit: "°C" },
    { insulation: run.insulation, terminalC: run.terminalC },
    () => {
      const figure = figures(
        ratedAs(run) === "xlpe-90" ? "thermosettingTemperature" : "thermoplasticTemperature",
      );
      return figure.kind === "figure" ? figure : undefined;
    },
  );
}

function atTemperature(spec: {
  readonly symbol: string;
  readonly label: string;
  readonly inputs: { readonly r20: Quantity; readonly L: Quantity };
  readonly run: CableRun;
  readonly warmth: Warmth;
  readonly figures: Figures<ConductorFigure>;
}): Quantity {
  const { symbol, inputs, figures } = spec;
  const named = { symbol, label: `${spec.label}, ${spec.warmth}`, unit: "Ω", clause: "conductor-resistance" };
  if (spec.warmth === "cold") {
    return step({ ...named, formula: "r20 * L / 1000", inputs, compute: ({ r20, L }) => (r20 * L) / 1000 });
  }
  return step({
    ...named,
    formula: "r20 * L / 1000 * (1 + α * (θ - θ20))",
    inputs: {
      ...inputs,
      α: figures("copperTemperatureCoefficient"),
      θ: operatingTemperature(spec.run, figures),
      θ20: figures("coldTemperature"),
    },
    compute: ({ r20, L, α, θ, θ20 }) => ((r20 * L) / 1000) * (1 + α * (θ - θ20)),
  });
}

function resistancePerKm(run: CableRun, size: LocatedFact<number>, tables: CircuitTables): Quantity {
  return chosenRow(
    { symbol: "r20", label: `${size.guide.title} resistance at 20 °C`, unit: "Ω/km" },
    { mm2: size, construction: run.construction, metal: run.metal },
    ({ mm2, construction, metal }) => {
      const row = metal === "copper" ? tables.resistance.rows.find(([size]) => size === mm2) : undefined;
      const value = construction === "flexible" ? row?.[2] : row?.[1];
      return value === undefined ? undefined : { value, citation: tables.resistance.citation };
    },
  );
}
