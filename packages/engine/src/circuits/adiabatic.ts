import { chosenRow } from "../job/index.ts";
import { type Quantity, step } from "../worked/index.ts";
import { type CableRun, ratedAs } from "./cable-run.ts";
import type { CircuitTables } from "./tables.ts";

/** What a metal needs to be warmed, for the constant k. Source: [iec60949]. */
export interface HeatingMetal {
  /** Reciprocal of the temperature coefficient at 0 °C. [°C] */
  readonly betaC: number;
  /** Volumetric heat capacity at 20 °C. [J/(K·mm³)] */
  readonly heatJPerKMm3: number;
  /** Resistivity at 20 °C. [Ω·mm] */
  readonly resistivityOhmMm: number;
}

/**
 * Adiabatic constant of a conductor from its material and temperatures.
 *
 *     k = √( Qc · (β + 20) / ρ20 · ln((β + θf) / (β + θi)) )
 *
 * @param input.initialC Temperature when the fault begins, θi. [°C]
 * @param input.finalC Temperature the insulation stands, θf; above the initial one. [°C]
 * @returns k [A·√s/mm²]
 *
 * Source: [iec60949]; used to check the printed constants, not to replace them.
 */
export function adiabaticConstant(
  metal: HeatingMetal,
  input: { readonly initialC: number; readonly finalC: number },
): number {
  const { betaC, heatJPerKMm3, resistivityOhmMm } = metal;
  return Math.sqrt(
    ((heatJPerKMm3 * (betaC + 20)) / resistivityOhmMm) *
      Math.log((betaC + input.finalC) / (betaC + input.initialC)),
  );
}

/** The printed constant k for the protective conductor of a cable. */
export function protectiveConstant(run: CableRun, tables: CircuitTables): Quantity {
  const { form } = run.protective;
  return chosenRow(
    { symbol: "k", label: "adiabatic constant", unit: "A·√s/mm²" },
    { form, insulation: run.insulation, terminalC: run.terminalC, metal: run.metal },
    ({ form: how, metal }) => {
      const row = tables.adiabatic.find(
        (item) =>
          item.form === how &&
          item.insulation === ratedAs(run) &&
          item.metal === (how === "armour" ? "steel" : metal),
      );
      return row === undefined ? undefined : { value: row.k, citation: row.citation };
    },
  );
}

/**
 * Smallest protective conductor that stands a fault until it is cleared.
 *
 *     S = √(I² · t) / k
 *
 * Holds for 0.1 s to 5 s. Source: [bs7671] regulation 543.1.3.
 */
export const adiabaticSize = (currentA: Quantity, timeS: Quantity, k: Quantity): Quantity =>
  step({
    symbol: "S",
    label: "smallest protective conductor, adiabatic",
    unit: "mm²",
    clause: "adiabatic",
    formula: "sqrt(I^2 * t) / k",
    inputs: { I: currentA, t: timeS, k },
    compute: ({ I, t, k }) => Math.sqrt(I * I * t) / k,
  });

/**
 * The same from the energy a device lets through: `S = √(I²t) / k`, for faults cleared within 0.1 s.
 */
export const adiabaticSizeFromEnergy = (letThrough: Quantity, k: Quantity): Quantity =>
  step({
    symbol: "S",
    label: "smallest protective conductor, from the energy let through",
    unit: "mm²",
    clause: "adiabatic",
    formula: "sqrt(E) / k",
    inputs: { E: letThrough, k },
    compute: ({ E, k }) => Math.sqrt(E) / k,
  });
