import { describe, expect, it } from "vitest";
import { known } from "../job/index.ts";
import { circuits, figures } from "../testing/knowledge.ts";
import { knownValue } from "../testing/plain.ts";
import { cableWith } from "../testing/run.ts";
import { armourResistance, conductorResistance } from "./conductor.ts";
import { earthLoop } from "./loop.ts";

describe("conductorResistance", () => {
  const resistance = (mm2: number, lengthM: number, warmth: "cold" | "hot", more = {}) => {
    const { run } = cableWith({ lineMm2: known(mm2), lengthM: known(lengthM), ...more });
    return conductorResistance(run, run.lineMm2, "R1", warmth, circuits, figures);
  };

  it("cold, it is the printed resistance over the length", () => {
    expect(knownValue(resistance(6, 1000, "cold"))).toBeCloseTo(3.08, 12);
    expect(knownValue(resistance(16, 50, "cold"))).toBeCloseTo(0.0575, 12);
  });
  it("hot, it is raised to the temperature of the insulation: 1.1965 at 70 °C, 1.2751 at 90 °C", () => {
    expect(knownValue(resistance(6, 1000, "hot")) / 3.08).toBeCloseTo(1.1965, 12);
    const xlpe = { insulation: known("xlpe-90"), terminalC: known(90), construction: known("armoured") };
    expect(knownValue(resistance(6, 1000, "hot", xlpe)) / 3.08).toBeCloseTo(1.2751, 12);
  });
  it("terminals for 70 °C keep a 90 °C cable at 70 °C", () => {
    const cooled = { insulation: known("xlpe-90"), terminalC: known(70), construction: known("armoured") };
    expect(knownValue(resistance(6, 1000, "hot", cooled)) / 3.08).toBeCloseTo(1.1965, 12);
  });
  it("a flexible cable has finer strands and more resistance", () => {
    expect(knownValue(resistance(6, 1000, "cold", { construction: known("flexible") }))).toBeCloseTo(3.3, 12);
  });
  it.each([
    ["aluminium", { metal: known("aluminium" as const) }],
    ["a size nobody makes", { lineMm2: known(7) }],
  ])("%s has no row, and is not taken for the nearest", (_what, change) => {
    const { run } = cableWith(change);
    expect(conductorResistance(run, run.lineMm2, "R1", "cold", circuits, figures)).toMatchObject({
      kind: "unknown",
      missing: [{ what: "figure" }],
    });
  });
  it("keeps which facts chose the row", () => {
    const { run } = cableWith({ lineMm2: known(6, "assumed") });
    const result = conductorResistance(run, run.lineMm2, "R1", "cold", circuits, figures);
    expect(result).toMatchObject({
      inputs: {
        r20: {
          chosenBy: expect.arrayContaining([
            expect.objectContaining({ path: "cables[to-end].run.lineMm2", basis: "assumed" }),
          ]),
        },
      },
    });
  });
});

describe("R1 + R2 of flat twin and earth, printed for 50 m at 20 °C", () => {
  // Source: Guide to the Wiring Regulations (2008), Appendix 4, tables 4.3 and 4.4 [reprint-armour]; two decimals printed.
  it.each([
    [1.5, 1, 1.51],
    [2.5, 1.5, 0.98],
    [4, 1.5, 0.84],
    [6, 2.5, 0.52],
    [10, 4, 0.32],
    [16, 6, 0.211],
  ])("%d/%d mm² is %d Ω", (line, cpc, printed) => {
    const cable = cableWith({
      lineMm2: known(line),
      protective: { form: known("core"), mm2: known(cpc) },
      lengthM: known(50),
    });
    const loop = earthLoop(cable, "cold", circuits, figures);
    if (loop === null) throw new Error("a busbar");
    expect(Math.abs(knownValue(loop) - printed)).toBeLessThanOrEqual(0.0056); // half a printed digit; 0.5245 is printed 0.52
  });
});

describe("armourResistance", () => {
  it("takes the row by size and cores: 6 mm², 2 cores, 7.0 Ω/km [reprint-armour] table 4.4", () => {
    const { run } = cableWith({ construction: known("armoured"), lengthM: known(100) });
    expect(knownValue(armourResistance(run, 2, "R2", "cold", circuits, figures))).toBeCloseTo(0.7, 12);
  });
  it("above 6 mm² there is no figure, and it says so", () => {
    const { run } = cableWith({ construction: known("armoured"), lineMm2: known(10) });
    expect(armourResistance(run, 2, "R2", "cold", circuits, figures)).toMatchObject({
      kind: "unknown",
      missing: [{ what: "figure" }],
    });
  });
});
