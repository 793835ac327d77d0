/**
 * A broken supply neutral on a TN-C-S supply: what potential the metalwork of the installation takes.
 *
 * With the combined conductor broken, load current returns through the installation's own electrode,
 * if it has one. Loads are taken as constant resistances, the regulations' way of estimating; a charging
 * car is not one, so this is an estimate and not a prediction.
 *
 * @module
 */
import {
  add,
  type Complex,
  complex,
  divide,
  LINES,
  type Line,
  linePhasor,
  magnitude,
  multiply,
  requireInRange,
} from "../quantities/index.ts";

export interface OpenPenLoads {
  /** Line to neutral. [V], 50 to 1000 */
  readonly nominalVoltageV: number;
  /** Load current of each line at nominal voltage, lagging parts negative imaginary. [A] */
  readonly loadA: Readonly<Record<Line, Complex>>;
}

/**
 * Potential of the metalwork to true earth.
 *
 *     V = Σ Uk · Yk / (Σ Yk + 1 / RE)      Yk = Ik / U0
 *
 * @param electrodeOhm Electrode joined to the installation's earthing, null for none. [Ω], above 0
 * @returns [V], phasor
 *
 * Source: Millman's theorem; agrees with [bs7671] Annex A722 for resistive loads.
 */
export function openPenPotential(loads: OpenPenLoads, electrodeOhm: number | null): Complex {
  requireInRange("nominalVoltageV", loads.nominalVoltageV, 50, 1000);
  if (electrodeOhm !== null) requireInRange("electrodeOhm", electrodeOhm, Number.MIN_VALUE, 1e12);
  let [current, admittance] = [complex(0), complex(electrodeOhm === null ? 0 : 1 / electrodeOhm)];
  for (const line of LINES) {
    const y = divide(loads.loadA[line], complex(loads.nominalVoltageV));
    current = add(current, multiply(linePhasor(line, loads.nominalVoltageV), y));
    admittance = add(admittance, y);
  }
  return magnitude(admittance) === 0 ? complex(0) : divide(current, admittance);
}

/**
 * Neutral current of an unbalanced load at unity power factor.
 *
 *     IN = √( (I1 − ½(I2 + I3))² + (√3/2 · (I2 − I3))² )
 *
 * @returns [A]
 *
 * Source: [bs7671] Annex A722.
 *
 * @example
 * neutralCurrentA({ L1: 72, L2: 40, L3: 40 }); // → 32
 */
export function neutralCurrentA(loadA: Readonly<Record<Line, number>>): number {
  const { L1, L2, L3 } = loadA;
  return Math.hypot(L1 - 0.5 * (L2 + L3), (Math.sqrt(3) / 2) * (L2 - L3));
}
