import { requireInRange } from "./require-in-range.ts";

/**
 * Line current of a balanced three-phase load or of a transformer.
 *
 *     I = S / (√3 · U)
 *
 * @param apparentPowerVa S; active power over the power factor. [VA], 0 to 1e9
 * @param lineVoltageV Between lines. [V], 50 to 1e6
 * @returns [A]
 *
 * Source: definition; checked against the worked cable example of the Electrical Installation Guide.
 *
 * @example
 * threePhaseCurrentA({ apparentPowerVa: 630000, lineVoltageV: 420 }); // → 866.02540378
 */
export function threePhaseCurrentA(load: {
  readonly apparentPowerVa: number;
  readonly lineVoltageV: number;
}): number {
  requireInRange("apparentPowerVa", load.apparentPowerVa, 0, 1e9);
  requireInRange("lineVoltageV", load.lineVoltageV, 50, 1e6);
  return load.apparentPowerVa / (Math.sqrt(3) * load.lineVoltageV);
}
