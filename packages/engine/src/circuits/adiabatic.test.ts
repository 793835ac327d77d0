import { describe, expect, it } from "vitest";
import { known } from "../job/index.ts";
import { circuits } from "../testing/knowledge.ts";
import { knownValue, plain } from "../testing/plain.ts";
import { cableWith } from "../testing/run.ts";
import {
  adiabaticConstant,
  adiabaticSize,
  adiabaticSizeFromEnergy,
  protectiveConstant,
} from "./adiabatic.ts";

/** Material constants of IEC 60949, as quoted in [reprint-iec60949]. */
const copper = { betaC: 234.5, heatJPerKMm3: 3.45e-3, resistivityOhmMm: 17.241e-6 };
const aluminium = { betaC: 228, heatJPerKMm3: 2.5e-3, resistivityOhmMm: 28.264e-6 };
const steel = { betaC: 202, heatJPerKMm3: 3.8e-3, resistivityOhmMm: 138e-6 };

describe("adiabaticConstant against the printed k [bs7671] tables 43.1 and 54.2 to 54.4 [reprint-k]", () => {
  it.each([
    ["copper", copper, 70, 160, 115],
    ["copper", copper, 90, 250, 143],
    ["copper", copper, 90, 160, 100],
    ["copper", copper, 30, 160, 143],
    ["copper", copper, 30, 250, 176],
    ["aluminium", aluminium, 70, 160, 76],
    ["aluminium", aluminium, 90, 250, 94],
    ["aluminium", aluminium, 30, 160, 95],
    ["aluminium", aluminium, 30, 250, 116],
    ["steel", steel, 60, 200, 51],
    ["steel", steel, 80, 200, 46],
  ] as const)("%s %#: from %s to %d °C prints %d", (_metal, constants, initialC, finalC, printed) => {
    // The print is rounded to whole numbers, up or down; 0.6 covers both.
    expect(Math.abs(adiabaticConstant(constants, { initialC, finalC }) - printed)).toBeLessThanOrEqual(0.6);
  });
  it("every constant in the knowledge agrees with the formula", () => {
    const metals = { copper, aluminium, steel };
    for (const row of circuits.adiabatic) {
      expect(
        Math.abs(adiabaticConstant(metals[row.metal], row) - row.k),
        JSON.stringify(row),
      ).toBeLessThanOrEqual(0.6);
    }
  });
});

describe("adiabaticSize", () => {
  it("200 A for 0.4 s with k 115 asks for 1.10 mm² (Basic Electrical Installation Work, p. 262)", () => {
    const size = knownValue(adiabaticSize(plain("I", 230 / 1.15), plain("t", 0.4), plain("k", 115)));
    expect(Math.abs(size - 1.1)).toBeLessThanOrEqual(0.01);
  });
  it("45 000 A²s with k 115 asks for 1.84 mm²", () => {
    expect(knownValue(adiabaticSizeFromEnergy(plain("E", 45_000), plain("k", 115)))).toBeCloseTo(1.8446, 4);
  });
});

describe("protectiveConstant", () => {
  it.each([
    ["core", "pvc-70", 70, 115],
    ["core", "xlpe-90", 90, 143],
    ["core", "xlpe-90", 70, 115],
    ["separate", "pvc-70", 70, 143],
    ["armour", "xlpe-90", 90, 46],
  ] as const)("%s in %s with terminals for %d °C: %d", (form, insulation, terminalC, k) => {
    const { run } = cableWith({
      protective: { form: known(form), mm2: known(6) },
      insulation: known(insulation),
      terminalC: known(terminalC),
    });
    expect(knownValue(protectiveConstant(run, circuits))).toBe(k);
  });
});
