/**
 * Short-circuit currents of a radial network from its data: grid, transformer, cables.
 *
 * The method of an equivalent voltage source at the place of the fault, far from generators, in sequence
 * components. For supplies whose transformer is known; where the operator only declares a current, see
 * `loop.ts`. Impedances in ohms at the fault's voltage level.
 *
 * Source: [iec60909-0].
 *
 * @module
 */
import { add, type Complex, complex, magnitude, requireInRange } from "../quantities/index.ts";

/**
 * Impedance of the grid ahead of a transformer, seen from its low-voltage side.
 *
 *     Z = c · Un² / Sk · t²      X = Z / √(1 + (R/X)²)
 *
 * @param grid.shortCircuitPowerVa Sk at the high-voltage terminals. [VA]
 * @param grid.ratio t, rated low over rated high voltage of the transformer. [–]
 */
export function gridImpedance(grid: {
  readonly voltageFactor: number;
  readonly nominalVoltageV: number;
  readonly shortCircuitPowerVa: number;
  readonly rOverX: number;
  readonly ratio: number;
}): Complex {
  requireInRange("shortCircuitPowerVa", grid.shortCircuitPowerVa, 1e3, 1e12);
  const ohm = ((grid.voltageFactor * grid.nominalVoltageV ** 2) / grid.shortCircuitPowerVa) * grid.ratio ** 2;
  const reactance = ohm / Math.sqrt(1 + grid.rOverX ** 2);
  return complex(grid.rOverX * reactance, reactance);
}

/**
 * Impedance of a two-winding transformer, low-voltage side, without correction.
 *
 *     Z = uk/100 · Ur² / Sr      R = Pk · Ur² / Sr²      X = √(Z² − R²)
 */
export function transformerImpedance(transformer: {
  readonly ratedPowerVa: number;
  readonly ratedLowVoltageV: number;
  readonly shortCircuitVoltagePercent: number;
  readonly loadLossesW: number;
}): Complex {
  const { ratedPowerVa, ratedLowVoltageV, shortCircuitVoltagePercent, loadLossesW } = transformer;
  requireInRange("ratedPowerVa", ratedPowerVa, 1e3, 1e9);
  const base = ratedLowVoltageV ** 2 / ratedPowerVa;
  const ohm = (shortCircuitVoltagePercent / 100) * base;
  const resistance = (loadLossesW / ratedPowerVa) * base;
  return complex(resistance, Math.sqrt(ohm ** 2 - resistance ** 2));
}

/**
 * Correction of a transformer's impedance for the greatest current: `KT = 0.95 · cmax / (1 + 0.6 · xT)`.
 *
 * @param transformer.relativeReactance xT = X · Sr / Ur². [–]
 */
export const transformerCorrection = (transformer: {
  readonly maxVoltageFactor: number;
  readonly relativeReactance: number;
}): number => (0.95 * transformer.maxVoltageFactor) / (1 + 0.6 * transformer.relativeReactance);

export type Fault =
  | { readonly kind: "three-phase"; readonly z1: Complex }
  | { readonly kind: "two-phase"; readonly z1: Complex }
  | { readonly kind: "line-to-earth"; readonly z1: Complex; readonly z0: Complex };

/**
 * Initial symmetrical short-circuit current.
 *
 *     three-phase:    I = c · Un / (√3 · |Z1|)
 *     two-phase:      I = c · Un / (2 · |Z1|)          with Z2 = Z1
 *     line to earth:  I = √3 · c · Un / |2 · Z1 + Z0|
 *
 * @param nominalVoltageV Un between lines at the place of the fault. [V]
 * @returns [A]
 */
export function shortCircuitCurrentA(
  source: { readonly voltageFactor: number; readonly nominalVoltageV: number },
  fault: Fault,
): number {
  requireInRange("nominalVoltageV", source.nominalVoltageV, 50, 1e6);
  const driving = source.voltageFactor * source.nominalVoltageV;
  switch (fault.kind) {
    case "three-phase":
      return driving / (Math.sqrt(3) * magnitude(fault.z1));
    case "two-phase":
      return driving / (2 * magnitude(fault.z1));
    case "line-to-earth":
      return (Math.sqrt(3) * driving) / magnitude(add(add(fault.z1, fault.z1), fault.z0));
  }
}

/**
 * Factor from the initial current to its first peak: `κ = 1.02 + 0.98 · e^(−3 · R/X)`; the peak is κ · √2 · I.
 *
 * @example
 * peakFactor(0.1); // → 1.74600186
 */
export const peakFactor = (rOverX: number): number => 1.02 + 0.98 * Math.exp(-3 * rOverX);

/**
 * Heating of the decaying direct component, `m`; the thermal equivalent is `I · √(m + 1)` far from generators.
 *
 *     m = (e^(4 · f · T · ln(κ − 1)) − 1) / (2 · f · T · ln(κ − 1))
 *
 * At κ = 2, without resistance, it takes its limit 2.
 */
export function directComponentHeat(fault: {
  readonly peakFactor: number;
  readonly durationS: number;
  readonly frequencyHz: number;
}): number {
  const decay = Math.log(fault.peakFactor - 1);
  if (Math.abs(decay) < 1e-12) return 2;
  const cycles = fault.frequencyHz * fault.durationS;
  return (Math.exp(4 * cycles * decay) - 1) / (2 * cycles * decay);
}
