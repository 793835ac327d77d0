import { type Quantity, step } from "../worked/index.ts";

/**
 * Greatest electrode resistance that keeps metalwork within a touch voltage when the supply neutral of a
 * single-phase installation is broken.
 *
 *     RE = (U0 / I) · V / (U0 − V)
 *
 * I is the whole load of the installation, V the permitted touch voltage.
 * Source: voltage divider; [bs7671] Annex A722.
 */
export const openPenElectrodeLimit = (u0: Quantity, load: Quantity, touchVoltage: Quantity): Quantity =>
  step({
    symbol: "RE_max",
    label: "greatest electrode resistance for a broken neutral",
    unit: "Ω",
    clause: "open-pen-electrode",
    formula: "U0 / I * V / (U0 - V)",
    inputs: { U0: u0, I: load, V: touchVoltage },
    compute: ({ U0, I, V }) => ((U0 / I) * V) / (U0 - V),
  });

/**
 * Potential of the metalwork of a three-phase installation with a broken neutral and an electrode.
 *
 *     V = IN / (ΣI / U0 + 1 / RE)      IN the neutral current of resistive loads
 */
export const openPenPotentialThreePhase = (spec: {
  readonly u0: Quantity;
  readonly loads: readonly [Quantity, Quantity, Quantity];
  readonly electrode: Quantity;
}): Quantity => {
  const [I1, I2, I3] = spec.loads;
  const IN = step({
    symbol: "IN",
    label: "neutral current of the unbalance",
    unit: "A",
    clause: "open-pen-electrode",
    formula: "sqrt((I1 - (I2 + I3) / 2)^2 + 3 / 4 * (I2 - I3)^2)",
    inputs: { I1, I2, I3 },
    compute: ({ I1, I2, I3 }) => Math.sqrt((I1 - (I2 + I3) / 2) ** 2 + (3 / 4) * (I2 - I3) ** 2),
  });
  return step({
    symbol: "V",
    label: "potential of the metalwork with the neutral broken",
    unit: "V",
    clause: "open-pen-electrode",
    formula: "IN / ((I1 + I2 + I3) / U0 + 1 / RE)",
    inputs: { IN, I1, I2, I3, U0: spec.u0, RE: spec.electrode },
    compute: ({ IN, I1, I2, I3, U0, RE }) => IN / ((I1 + I2 + I3) / U0 + 1 / RE),
  });
};
