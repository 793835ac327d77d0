import type { AdiabaticRow, CapacityTable, CircuitTables, Citation, FactorTable } from "@underfuse/engine";
import { bs7671Capacity } from "./bs7671-capacity.ts";
import { bs7671VoltageDrop } from "./bs7671-voltage-drop.ts";
import { iecCapacity } from "./iec-capacity.ts";

const wiringRules = (
  at: string,
  standing: Citation["standing"],
  seenAt?: string,
  remark?: string,
): Citation => ({
  source: "bs7671",
  at,
  standing,
  ...(seenAt && { seenAt }),
  ...(remark && { remark }),
});

const factors = (citation: Citation, falls: boolean, rows: FactorTable["rows"]): FactorTable => ({
  citation,
  falls,
  rows,
});

/** Sheathed multicore cable is rated by the IEC columns; D is taken in a duct. */
const multicore: readonly CapacityTable[] = (["pvc-70", "xlpe-90"] as const).flatMap((insulation) =>
  iecCapacity
    .filter((table) => table.insulation === insulation)
    .map(({ citation, columns, rows }): CapacityTable => {
      const names = { A2: "A", B2: "B", C: "C", D1: "D", E: "E" } as const;
      const kept = columns.flatMap(([method, loaded], index) =>
        method in names ? [{ column: [names[method as keyof typeof names], loaded] as const, index }] : [],
      );
      return {
        id: "IEC multicore",
        construction: "multicore",
        insulation,
        citation,
        columns: kept.map(({ column }) => column),
        rows: rows.map(([mm2, ...values]) => [mm2, ...kept.map(({ index }) => values[index] ?? null)]),
      };
    }),
);

const core = (
  metal: AdiabaticRow["metal"],
  insulation: AdiabaticRow["insulation"],
  initialC: number,
  finalC: number,
  k: number,
) => adiabatic("core", metal, insulation, initialC, finalC, k, "Table 54.3");
const separate = (
  metal: AdiabaticRow["metal"],
  insulation: AdiabaticRow["insulation"],
  finalC: number,
  k: number,
) => adiabatic("separate", metal, insulation, 30, finalC, k, "Table 54.2");
function adiabatic(
  form: AdiabaticRow["form"],
  metal: AdiabaticRow["metal"],
  insulation: AdiabaticRow["insulation"],
  initialC: number,
  finalC: number,
  k: number,
  at: string,
): AdiabaticRow {
  return { form, metal, insulation, initialC, finalC, k, citation: wiringRules(at, "seen", "reprint-k") };
}

/** Everything printed that cable sizing reads. Copper, except for the adiabatic constants. */
export const CIRCUITS: CircuitTables = {
  resistance: {
    citation: {
      source: "iec60228",
      at: "tables 1, 2 and 3, plain copper",
      standing: "seen",
      seenAt: "reprint-iec60228",
    },
    rows: [
      [0.5, 36.0, 39.0],
      [0.75, 24.5, 26.0],
      [1, 18.1, 19.5],
      [1.5, 12.1, 13.3],
      [2.5, 7.41, 7.98],
      [4, 4.61, 4.95],
      [6, 3.08, 3.3],
      [10, 1.83, 1.91],
      [16, 1.15, 1.21],
      [25, 0.727, 0.78],
      [35, 0.524, 0.554],
      [50, 0.387, 0.386],
      [70, 0.268, 0.272],
      [95, 0.193, 0.206],
      [120, 0.153, 0.161],
    ],
  },
  armour: {
    citation: { source: "reprint-armour", at: "table 4.4", standing: "seen" },
    rows: [
      [1.5, 10.2, 9.5, 8.8, 8.2],
      [2.5, 8.8, 8.2, 7.7, 6.8],
      [4, 7.9, 7.5, 6.8, 6.2],
      [6, 7.0, 6.7, 4.3, 3.9],
    ],
  },
  capacity: [...bs7671Capacity, ...multicore],
  voltageDrop: bs7671VoltageDrop,
  ambientInAir: {
    "pvc-70": factors(
      wiringRules(
        "Table 4B1",
        "seen",
        "reprint-ambient",
        "25 to 55 °C read; 10 to 20 °C and 60 °C recalled. IEC prints 1.06 at 25 °C.",
      ),
      true,
      [
        [10, 1.22],
        [15, 1.17],
        [20, 1.12],
        [25, 1.03],
        [30, 1],
        [35, 0.94],
        [40, 0.87],
        [45, 0.79],
        [50, 0.71],
        [55, 0.61],
        [60, 0.5],
      ],
    ),
    "xlpe-90": factors(wiringRules("Table 4B1", "recalled"), true, [
      [10, 1.15],
      [15, 1.12],
      [20, 1.08],
      [25, 1.04],
      [30, 1],
      [35, 0.96],
      [40, 0.91],
      [45, 0.87],
      [50, 0.82],
      [55, 0.76],
      [60, 0.71],
      [65, 0.65],
      [70, 0.58],
      [75, 0.5],
      [80, 0.41],
    ]),
  },
  ambientInGround: {
    "pvc-70": factors(wiringRules("Table 4B2", "recalled"), true, [
      [10, 1.1],
      [15, 1.05],
      [20, 1],
      [25, 0.95],
      [30, 0.89],
      [35, 0.84],
      [40, 0.77],
    ]),
    "xlpe-90": factors(wiringRules("Table 4B2", "recalled"), true, [
      [10, 1.07],
      [15, 1.04],
      [20, 1],
      [25, 0.96],
      [30, 0.93],
      [35, 0.89],
      [40, 0.85],
    ]),
  },
  grouping: {
    enclosed: factors(wiringRules("Table 4C1, bunched or enclosed", "seen", "reprint-4c1"), true, [
      [1, 1],
      [2, 0.8],
      [3, 0.7],
      [4, 0.65],
      [5, 0.6],
      [6, 0.57],
      [7, 0.54],
      [8, 0.52],
      [9, 0.5],
      [12, 0.45],
      [16, 0.41],
      [20, 0.38],
    ]),
    "layer-on-wall": factors(wiringRules("Table 4C1, single layer on a wall", "seen", "reprint-4c1"), true, [
      [1, 1],
      [2, 0.85],
      [3, 0.79],
      [4, 0.75],
      [5, 0.73],
      [6, 0.72],
      [7, 0.72],
      [8, 0.71],
      [9, 0.7],
      [12, 0.7],
      [16, 0.7],
      [20, 0.7],
    ]),
    "layer-on-tray": factors(wiringRules("Table 4C1, perforated tray", "seen", "reprint-4c1"), true, [
      [1, 1],
      [2, 0.88],
      [3, 0.82],
      [4, 0.77],
      [5, 0.75],
      [6, 0.73],
      [7, 0.73],
      [8, 0.72],
      [9, 0.72],
    ]),
    "layer-on-ladder": factors(wiringRules("Table 4C1, ladder or cleats", "seen", "reprint-4c1"), true, [
      [1, 1],
      [2, 0.87],
      [3, 0.82],
      [4, 0.8],
      [5, 0.8],
      [6, 0.79],
      [7, 0.79],
      [8, 0.78],
    ]),
    "buried-touching": factors(wiringRules("Table 4C2", "recalled"), true, [
      [1, 1],
      [2, 0.75],
      [3, 0.65],
      [4, 0.6],
      [5, 0.55],
      [6, 0.5],
    ]),
  },
  inInsulation: factors(
    wiringRules(
      "Table 52.2",
      "recalled",
      undefined,
      "The 16th edition printed .89, .81, .68 and .55; the later values are taken. 0.5 from half a metre was read.",
    ),
    true,
    [
      [0, 1],
      [50, 0.88],
      [100, 0.78],
      [200, 0.63],
      [400, 0.51],
      [500, 0.5],
      [10_000, 0.5],
    ],
  ),
  soil: factors(
    wiringRules(
      "Table 4B3, in duct",
      "recalled",
      undefined,
      "The column for ducts: for cables laid direct in poor soil the printed factors are larger, so this is the safe one below 2.5 K·m/W.",
    ),
    true,
    [
      [0.5, 1.28],
      [0.7, 1.2],
      [1, 1.18],
      [1.5, 1.1],
      [2, 1.05],
      [2.5, 1],
      [3, 0.9],
    ],
  ),
  depth: factors(wiringRules("Table 4B4, direct in the ground", "recalled"), true, [
    [0.7, 1],
    [1, 0.97],
    [1.25, 0.95],
    [1.5, 0.94],
    [1.75, 0.93],
    [2, 0.92],
    [2.5, 0.91],
    [3, 0.9],
  ]),
  adiabatic: [
    core("copper", "pvc-70", 70, 160, 115),
    core("copper", "xlpe-90", 90, 250, 143),
    separate("copper", "pvc-70", 160, 143),
    separate("copper", "xlpe-90", 250, 176),
    adiabatic("armour", "steel", "pvc-70", 60, 200, 51, "Table 54.4"),
    adiabatic("armour", "steel", "xlpe-90", 80, 200, 46, "Table 54.4"),
  ],
};
