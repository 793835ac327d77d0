import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { known } from "../job/index.ts";
import { circuits, figures } from "../testing/knowledge.ts";
import { knownValue, plain } from "../testing/plain.ts";
import { cableWith } from "../testing/run.ts";
import { cableDrops, loadedCorrection, tabulatedDropV, voltageDrop } from "./voltage-drop.ts";

const dropOf = cableDrops(circuits, figures);
const pure = { xMvPerAm: 0, powerFactor: 1 };

describe("tabulatedDropV", () => {
  it.each([
    // printed example, mV/A/m, A, m, V, source
    ["1-phase 4 mm²", 11, 30, 20, 6.6, "an installer's page on voltage drop [reprint-4d5-drop]"],
    ["1-phase 1.5 mm²", 29, 16, 10, 4.64, "the same page"],
    [
      "3-phase, 100 A over 150 m",
      1.1,
      100,
      150,
      16.5,
      "a cable distributor's page of worked voltage-drop examples",
    ],
  ])("%s: %d mV · %d A · %d m is %d V (%s)", (_what, rMvPerAm, currentA, lengthM, printed) => {
    expect(tabulatedDropV({ ...pure, rMvPerAm, currentA, lengthM })).toBeCloseTo(printed, 9);
  });
  it("the size for a drop of 10.5 V at 100 A over 150 m is 70 mm² (the same distributor's page)", () => {
    const most = 10.5 / (100 * 0.15);
    expect(most).toBeCloseTo(0.7, 12);
    for (const id of ["4D4B", "4E4B"]) {
      const table = circuits.voltageDrop.find((item) => item.id === id && item.loaded === 3);
      expect(table?.rows.find(([, r, , z]) => (z ?? r) <= most)?.[0], id).toBe(70);
    }
  });
  it("with resistance and reactance agrees with the printed 7.299 % (a handbook example, 65.82 A, 0.296 and 0.0268 Ω, cosφ 0.85)", () => {
    const lineToLineV =
      Math.sqrt(3) *
      tabulatedDropV({ rMvPerAm: 296, xMvPerAm: 26.8, powerFactor: 0.85, currentA: 65.82, lengthM: 1 });
    expect(Math.abs((100 * lineToLineV) / 415 - 7.299)).toBeLessThanOrEqual(0.0073); // 0.1 %: sinφ is printed to four digits
  });
});

describe("loadedCorrection", () => {
  const correction = (currentA: number, changes = {}) =>
    knownValue(loadedCorrection(cableWith(changes).run, 2, plain("I", currentA, "A"), circuits, figures));

  it("32 A in a cable for 47 A at 70 °C: 0.9285 (worked from the formula of Appendix 4, section 6.1, recalled)", () => {
    expect(correction(32)).toBeCloseTo(0.92847, 5);
  });
  it("32 A in a cable for 66 A at 90 °C: 0.8566", () => {
    const xlpe = {
      construction: known("armoured"),
      insulation: known("xlpe-90"),
      terminalC: known(90),
      method: known("E"),
    };
    expect(correction(32, xlpe)).toBeCloseTo(0.8566, 4);
  });
  it("fully loaded it corrects nothing, overloaded it is not more than 1", () => {
    expect(correction(47)).toBeCloseTo(1, 12);
    expect(correction(60)).toBe(1);
  });
  it("a cold place does not lower it further, and in the ground it is 1", () => {
    expect(correction(32, { ambientC: known(10) })).toBeCloseTo(correction(32), 12);
    const buried = {
      construction: known("armoured"),
      method: known("D"),
      soilThermalResistivityKmW: known(2.5),
      burialDepthM: known(0.7),
      ambientC: known(20),
    };
    expect(correction(10, buried)).toBe(1);
  });
});

describe("voltageDrop along a path", () => {
  const drop = (
    changes: object,
    currentA: number,
    lines: readonly ("L1" | "L2" | "L3")[] = ["L1"],
    loadLines = 1,
  ) =>
    knownValue(
      voltageDrop(
        [{ cable: cableWith(changes, lines), current: plain("I", currentA, "A") }],
        loadLines,
        dropOf,
      ),
    );

  it("32 A over 25 m of 6 mm²: 7.3 · 0.92847 · 32 · 25 / 1000 V", () => {
    expect(drop({}, 32)).toBeCloseTo(0.0073 * 0.928474 * 32 * 25, 5);
  });
  it("fully loaded there is no correction: the printed figure times current and length", () => {
    expect(drop({}, 47)).toBeCloseTo(0.0073 * 47 * 25, 9);
  });
  it("on three phases a balanced load drops 1/√3 of the tabulated line-to-line figure, a single-phase load 2/√3", () => {
    const swa = {
      construction: known("armoured"),
      lineMm2: known(10),
      method: known("D"),
      ambientC: known(20),
      soilThermalResistivityKmW: known(2.5),
      burialDepthM: known(0.7),
    };
    const lines = ["L1", "L2", "L3"] as const;
    expect(drop(swa, 32, lines, 3)).toBeCloseTo((0.0038 * 32 * 25) / Math.sqrt(3), 9);
    expect(drop(swa, 32, lines, 1)).toBeCloseTo((2 * 0.0038 * 32 * 25) / Math.sqrt(3), 9);
  });
  it("a smaller neutral drops what its own size drops, except under a balanced load", () => {
    expect(drop({ neutralMm2: known(4) }, 30)).toBe(drop({ lineMm2: known(4) }, 30));
    const lines = ["L1", "L2", "L3"] as const;
    const multicore = { construction: known("multicore"), lineMm2: known(10) };
    const reduced = { ...multicore, neutralMm2: known(6) };
    expect(drop(reduced, 30, lines, 3)).toBe(drop(multicore, 30, lines, 3));
    expect(drop(reduced, 30, lines, 1)).toBeGreaterThan(drop(multicore, 30, lines, 1));
  });
  it("above 16 mm² resistance and reactance are told apart", () => {
    const tails = { construction: known("single-core"), lineMm2: known(25), ambientC: known(30) };
    const withReactance = drop(tails, 114);
    expect(withReactance).toBeCloseTo((1.75 * 0.98 + 0.2 * Math.sqrt(1 - 0.98 ** 2)) * 114 * 0.025, 9);
  });
  it("longer never drops less, more current never drops less", () => {
    const arbitrary = fc.double({ min: 0.1, max: 60, noNaN: true });
    fc.assert(
      fc.property(
        arbitrary,
        arbitrary,
        fc.double({ min: 1, max: 2, noNaN: true }),
        (currentA, lengthM, more) => {
          const base = drop({ lengthM: known(lengthM) }, currentA);
          expect(drop({ lengthM: known(lengthM * more) }, currentA)).toBeGreaterThanOrEqual(base - 1e-12);
          expect(drop({ lengthM: known(lengthM) }, currentA * more)).toBeGreaterThanOrEqual(base - 1e-12);
        },
      ),
      { numRuns: 50 },
    );
  });
  it("a cable nobody described is unknown, not free of loss", () => {
    const cable = { ...cableWith(), run: "not-surveyed" as const };
    expect(voltageDrop([{ cable, current: plain("I", 32) }], 1, dropOf)).toMatchObject({
      kind: "unknown",
      missing: [{ path: "cables[to-end].run" }],
    });
  });
});
