import type { Insulation } from "@underfuse/engine";

/**
 * Coefficients of I = A · S^m, IEC 60364-5-52 Annex D, used only to check the capacity tables.
 *
 * Nominal 50 mm² is entered as 47.5 mm². Sources: [iec60364-5-52] Annex D; `seen` in a transcription of a national
 * edition, the others recalled.
 */
export interface AnnexDCoefficient {
  readonly insulation: Insulation;
  readonly method: string;
  readonly loaded: 2 | 3;
  /** Sizes it holds for, both included. [mm²] */
  readonly fromMm2: number;
  readonly toMm2: number;
  readonly a: number;
  readonly m: number;
  readonly standing: "seen" | "recalled";
}

const row = (
  insulation: Insulation,
  method: string,
  loaded: 2 | 3,
  fromMm2: number,
  toMm2: number,
  a: number,
  m: number,
  standing: "seen" | "recalled",
): AnnexDCoefficient => ({ insulation, method, loaded, fromMm2, toMm2, a, m, standing });

export const annexDCoefficients: readonly AnnexDCoefficient[] = [
  row("pvc-70", "A1", 2, 1.5, 120, 11.2, 0.6118, "seen"),
  row("pvc-70", "A1", 3, 1.5, 120, 10.4, 0.605, "seen"),
  row("pvc-70", "A2", 2, 1.5, 120, 10.8, 0.6015, "seen"),
  row("pvc-70", "A2", 3, 1.5, 120, 10.1, 0.592, "recalled"),
  row("pvc-70", "B1", 2, 1.5, 120, 13.5, 0.625, "recalled"),
  row("pvc-70", "B1", 3, 1.5, 120, 11.84, 0.628, "recalled"),
  row("pvc-70", "B2", 2, 1.5, 120, 13.1, 0.6, "recalled"),
  row("pvc-70", "B2", 3, 1.5, 120, 11.65, 0.6005, "recalled"),
  row("pvc-70", "C", 2, 1.5, 120, 15.0, 0.625, "recalled"),
  row("pvc-70", "C", 3, 1.5, 16, 13.5, 0.625, "recalled"),
  row("pvc-70", "C", 3, 25, 120, 12.4, 0.635, "recalled"),
  row("pvc-70", "D1", 2, 1.5, 120, 17.42, 0.54, "recalled"),
  row("pvc-70", "D1", 3, 1.5, 120, 14.34, 0.542, "recalled"),
  row("xlpe-90", "A1", 2, 1.5, 120, 14.9, 0.611, "seen"),
  row("xlpe-90", "A1", 3, 1.5, 120, 13.34, 0.611, "seen"),
  row("xlpe-90", "A2", 2, 1.5, 120, 14.46, 0.598, "recalled"),
  row("xlpe-90", "A2", 3, 1.5, 120, 12.95, 0.598, "recalled"),
  row("xlpe-90", "B1", 2, 1.5, 120, 17.76, 0.625, "recalled"),
  row("xlpe-90", "B1", 3, 1.5, 120, 15.62, 0.6252, "recalled"),
  row("xlpe-90", "B2", 2, 1.5, 120, 17.25, 0.6, "recalled"),
  row("xlpe-90", "B2", 3, 1.5, 120, 15.17, 0.6, "recalled"),
  row("xlpe-90", "C", 2, 1.5, 16, 18.77, 0.628, "recalled"),
  row("xlpe-90", "C", 2, 25, 120, 17.0, 0.65, "recalled"),
  row("xlpe-90", "C", 3, 1.5, 16, 17.0, 0.623, "recalled"),
  row("xlpe-90", "C", 3, 25, 120, 15.4, 0.635, "recalled"),
  row("xlpe-90", "D1", 2, 1.5, 120, 20.25, 0.542, "recalled"),
  row("xlpe-90", "D1", 3, 1.5, 120, 16.88, 0.539, "recalled"),
  row("pvc-70", "E", 2, 1.5, 16, 16.8, 0.62, "recalled"),
  row("pvc-70", "E", 2, 25, 120, 14.9, 0.646, "recalled"),
  row("pvc-70", "E", 3, 1.5, 16, 14.3, 0.62, "recalled"),
  row("pvc-70", "E", 3, 25, 120, 12.9, 0.64, "recalled"),
  row("pvc-70", "F", 2, 1.5, 120, 17.1, 0.632, "recalled"),
  row("pvc-70", "F", 3, 1.5, 120, 13.28, 0.6564, "recalled"),
  row("xlpe-90", "E", 2, 1.5, 16, 20.5, 0.623, "recalled"),
  row("xlpe-90", "E", 2, 25, 120, 18.6, 0.646, "recalled"),
  row("xlpe-90", "E", 3, 1.5, 16, 17.8, 0.623, "recalled"),
  row("xlpe-90", "E", 3, 25, 120, 16.4, 0.637, "recalled"),
  row("xlpe-90", "F", 2, 1.5, 120, 20.8, 0.636, "recalled"),
  row("xlpe-90", "F", 3, 1.5, 120, 16.0, 0.6633, "recalled"),
];
