import { chosenRow, given, type LocatedFact } from "../job/index.ts";
import { type Citation, type Figures, type Quantity, step } from "../worked/index.ts";

export interface EarthingTables {
  /** Supply neutral up to [mm²] and main bonding conductor [mm²], copper, for TN-C-S. */
  readonly pmeBonding: {
    readonly citation: Citation;
    readonly rows: readonly (readonly [neutralUpToMm2: number, bondingMm2: number])[];
  };
}

/**
 * Protective conductor by the table, without working out the fault: the line conductor's size up to
 * 16 mm², 16 up to 35, half above. Same metal. Source: [bs7671] Table 54.7.
 */
export const protectiveSizeByTable = (lineMm2: LocatedFact<number>): Quantity =>
  step({
    symbol: "S54",
    label: "protective conductor by the table",
    unit: "mm²",
    clause: "protective-conductor-table",
    formula: "Sl <= 16 ? Sl : (Sl <= 35 ? 16 : Sl / 2)",
    inputs: { Sl: given(lineMm2, "Sl") },
    compute: ({ Sl }) => (Sl <= 16 ? Sl : Sl <= 35 ? 16 : Sl / 2),
  });

/** Main bonding on TN-C-S, by the neutral of the supply. Source: [bs7671] Table 54.8. */
export const bondingSizeOnTncs = (neutralMm2: LocatedFact<number>, tables: EarthingTables): Quantity =>
  chosenRow(
    { symbol: "Sb_min", label: "smallest main bonding conductor on TN-C-S", unit: "mm²" },
    { neutralMm2 },
    ({ neutralMm2: neutral }) => {
      const row = tables.pmeBonding.rows.find(([upTo]) => neutral <= upTo);
      return row && { value: row[1], citation: tables.pmeBonding.citation };
    },
  );

/**
 * Main bonding on TN-S and TT: half the earthing conductor, at least 6 mm², never more than 25 mm² needed.
 * Source: [bs7671] 544.1.1.
 */
export const bondingSizeElsewhere = (
  earthingConductorMm2: LocatedFact<number>,
  figures: Figures<"bondingFloor" | "bondingCeiling">,
): Quantity =>
  step({
    symbol: "Sb_min",
    label: "smallest main bonding conductor",
    unit: "mm²",
    clause: "main-bonding",
    formula: "max(low, min(high, Se / 2))",
    inputs: {
      low: figures("bondingFloor"),
      high: figures("bondingCeiling"),
      Se: given(earthingConductorMm2, "Se"),
    },
    compute: ({ low, high, Se }) => Math.max(low, Math.min(high, Se / 2)),
  });
