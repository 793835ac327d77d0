import { describe, expect, it } from "vitest";
import { known, NOT_RECORDED, notApplicable } from "../job/index.ts";
import { circuits, figures } from "../testing/knowledge.ts";
import { knownValue } from "../testing/plain.ts";
import { cableWith } from "../testing/run.ts";
import { currentCapacity, ratingFactors, rowFor } from "./capacity.ts";

const capacity = (changes: Parameters<typeof cableWith>[0], loaded: 2 | 3 = 2) =>
  currentCapacity(cableWith(changes).run, loaded, circuits, figures);

describe("currentCapacity", () => {
  it("alone, clipped, at 30 °C, it is the printed figure: 6 mm² twin and earth carries 47 A", () => {
    expect(knownValue(capacity({}))).toBe(47);
  });
  it("with a neutral of 4 mm² it carries what 4 mm² carries; on three phases the lines count", () => {
    expect(knownValue(capacity({ neutralMm2: known(4) }))).toBe(knownValue(capacity({ lineMm2: known(4) })));
    const multicore = { construction: known("multicore" as const), lineMm2: known(10) };
    expect(knownValue(capacity({ ...multicore, neutralMm2: known(6) }, 3))).toBe(
      knownValue(capacity(multicore, 3)),
    );
  });
  it("two grouped circuits at 35 °C: 47 · 0.94 · 0.8 = 35.344 A", () => {
    const grouped = { ambientC: known(35), groupedCircuits: known(2), grouping: known("enclosed" as const) };
    expect(knownValue(capacity(grouped))).toBeCloseTo(35.344, 9);
  });
  it("agrees with the worked example: 32 A at 35 °C asks for 34.04 A tabulated (Basic Electrical Installation Work, p. 312)", () => {
    const factors = ratingFactors(cableWith({ ambientC: known(35) }).run, circuits, figures);
    expect(Math.abs(32 / knownValue(factors.Ca) - 34.04)).toBeLessThanOrEqual(0.05);
  });
  it("in the ground it takes ground temperature, soil and depth into account", () => {
    const buried = {
      construction: known("armoured" as const),
      insulation: known("xlpe-90" as const),
      lineMm2: known(16),
      method: known("D" as const),
      ambientC: known(25),
      soilThermalResistivityKmW: known(3),
      burialDepthM: known(1),
    };
    expect(knownValue(capacity({ ...buried, terminalC: known(90) }))).toBeCloseTo(91 * 0.96 * 0.9 * 0.97, 9);
    expect(knownValue(capacity({ ...buried, terminalC: known(70) }))).toBeCloseTo(78 * 0.95 * 0.9 * 0.97, 9);
    expect(capacity({ ...buried, terminalC: known(90), burialDepthM: NOT_RECORDED })).toMatchObject({
      kind: "unknown",
      missing: [{ path: "cables[to-end].run.burialDepthM" }],
    });
  });
  it("through insulation it is derated by the next longer length in the table", () => {
    expect(knownValue(capacity({ inInsulationMm: known(60) }))).toBeCloseTo(47 * 0.78, 9);
    expect(knownValue(capacity({ inInsulationMm: known(5000) }))).toBeCloseTo(47 * 0.5, 9);
  });
  it("sheathed multicore takes the IEC columns: 6 mm² XLPE, method B, three loaded, 44 A", () => {
    const multicore = {
      construction: known("multicore" as const),
      insulation: known("xlpe-90" as const),
      terminalC: known(90 as const),
      method: known("B" as const),
    };
    expect(knownValue(capacity(multicore, 3))).toBe(44);
  });
  it.each([
    ["a method the table does not have", { method: known("E" as const) }, "figure"],
    ["hotter than the table goes", { ambientC: known(65) }, "figure"],
    [
      "more circuits than the table goes",
      { groupedCircuits: known(30), grouping: known("enclosed" as const) },
      "figure",
    ],
    ["an unknown method", { method: NOT_RECORDED }, "fact"],
    ["a group whose arrangement is unknown", { groupedCircuits: known(3), grouping: NOT_RECORDED }, "fact"],
    [
      "a group whose arrangement does not apply",
      { groupedCircuits: known(3), grouping: notApplicable("?") },
      "fact",
    ],
  ])("%s is unknown", (_what, change, what) => {
    expect(capacity(change)).toMatchObject({ kind: "unknown", missing: [{ what }] });
  });
});

describe("rowFor", () => {
  const table = {
    citation: { source: "t", at: "t", standing: "seen" },
    falls: true,
    rows: [
      [10, 1.2],
      [30, 1],
      [35, 0.94],
    ],
  } as const;
  it.each([
    [5, 1.2],
    [10, 1.2],
    [11, 1],
    [30, 1],
    [30.01, 0.94],
    [35, 0.94],
    [36, undefined],
  ])("at %d takes %s: the row itself, the next harsher, or none", (argument, value) => {
    expect(rowFor(table, argument)?.value).toBe(value);
  });
  it("where the factor grows with the argument the harsher row is the one below", () => {
    expect(
      rowFor(
        {
          ...table,
          falls: false,
          rows: [
            [1, 0.5],
            [2, 0.8],
          ],
        },
        1.5,
      )?.value,
    ).toBe(0.5);
  });
});
