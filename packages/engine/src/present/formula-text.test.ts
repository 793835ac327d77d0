import { evaluate } from "mathjs";
import { describe, expect, it } from "vitest";
import { plain } from "../testing/plain.ts";
import { type StepQuantity, step } from "../worked/index.ts";
import { printedFormula, substitutedFormula } from "./formula-text.ts";

describe("printedFormula", () => {
  it.each([
    ["Cmin * U0 / (m * In)", "Cmin × U0 / (m × In)"],
    ["sqrt(I^2 * t) / k", "√(I² × t) / k"],
    ["ρ / (2 * pi * L) * (log(8 * L / (d / 1000)) - 1)", "ρ / (2 × π × L) × (ln(8 × L / (d / 1000)) − 1)"],
    ["Ilim - Irest >= Imin ? Ilim - Irest : 0", "Ilim − Irest if Ilim − Irest ≥ Imin, otherwise 0"],
    ["Sl <= 16 ? Sl : (Sl <= 35 ? 16 : Sl / 2)", "Sl if Sl ≤ 16, otherwise 16 if Sl ≤ 35, otherwise Sl / 2"],
    ["max(Iex + Ifree, min(Iex + Icp, Ilim))", "max(Iex + Ifree, min(Iex + Icp, Ilim))"],
    ["(min(Ca, 1)^2 * Cg^2 - I^2 / It^2) * (θ - 30)", "(min(Ca, 1)² × Cg² − I² / It²) × (θ − 30)"],
  ])("%s", (formula, printed) => expect(printedFormula(formula)).toBe(printed));
});

describe("substitutedFormula", () => {
  const worked = step({
    symbol: "y",
    label: "y",
    unit: "",
    clause: "test",
    formula: "a * sqrt(b^2 + c) - a / d",
    inputs: { a: plain("a", 1.5), b: plain("b", 3), c: plain("c", -2), d: plain("d", 0.25) },
    compute: ({ a, b, c, d }) => a * Math.sqrt(b * b + c) - a / d,
  }) as StepQuantity;
  it("puts the values in", () => expect(substitutedFormula(worked)).toBe("1.5 × √(3² + (-2)) − 1.5 / 0.25"));
  it("and still gives the value when the signs are read back", () => {
    const arithmetic = substitutedFormula(worked)
      .replaceAll("×", "*")
      .replaceAll("√", "sqrt")
      .replaceAll("²", "^2")
      .replaceAll("−", "-");
    expect(evaluate(arithmetic)).toBeCloseTo(worked.value, 9);
  });
});
