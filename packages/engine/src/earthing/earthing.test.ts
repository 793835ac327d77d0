import { readFileSync } from "node:fs";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { blankElectrode, blankJob } from "../job/blank.ts";
import { known, locate, NOT_RECORDED } from "../job/index.ts";
import {
  type Complex,
  complex,
  LINES,
  type Line,
  magnitude,
  multiply,
  polar,
  subtract,
} from "../quantities/index.ts";
import { earthing, figures } from "../testing/knowledge.ts";
import { knownValue, plain } from "../testing/plain.ts";
import { electrodeResistance } from "./electrode.ts";
import { neutralCurrentA, openPenPotential } from "./open-pen.ts";
import { openPenPotentialAt, worstOpenPenPotential } from "./open-pen-electrode.ts";
import { bondingSizeElsewhere, bondingSizeOnTncs, protectiveSizeByTable } from "./protective-sizes.ts";

interface Case {
  readonly id: string;
  readonly nominalVoltageV: number;
  readonly electrodeResistanceOhm: number | null;
  readonly loads: readonly { readonly line: Line; readonly currentA: number; readonly powerFactor: number }[];
  readonly results: { readonly touchVoltageV: Complex };
}
const oracle = JSON.parse(
  readFileSync(new URL("../../../../reference/networks/broken_neutral.json", import.meta.url), "utf8"),
) as { readonly tool: { name: string; version: string }; readonly cases: readonly Case[] };

/** Load current relative to its own line's voltage: lagging turns it back. */
function loadsOf(item: Case): Record<Line, Complex> {
  const all: Record<Line, Complex> = { L1: complex(0), L2: complex(0), L3: complex(0) };
  for (const { line, currentA, powerFactor } of item.loads)
    all[line] = polar(currentA, -Math.acos(powerFactor));
  return all;
}

describe(`openPenPotential against ${oracle.tool.name} ${oracle.tool.version}`, () => {
  it("has at least twenty cases, with and without an electrode, resistive and inductive", () => {
    expect(oracle.cases.length).toBeGreaterThanOrEqual(20);
    expect(oracle.cases.some((item) => item.electrodeResistanceOhm === null)).toBe(true);
    expect(oracle.cases.some((item) => item.loads.some((load) => load.powerFactor < 1))).toBe(true);
  });
  it.each(oracle.cases.map((item) => [item.id, item] as const))("%s", (_id, item) => {
    const potential = openPenPotential(
      { nominalVoltageV: item.nominalVoltageV, loadA: loadsOf(item) },
      item.electrodeResistanceOhm,
    );
    expect(magnitude(subtract(potential, item.results.touchVoltageV)) / item.nominalVoltageV).toBeLessThan(
      1e-9,
    );
  });
});

describe("openPenPotential, by hand", () => {
  const loads = (L1: number, L2: number, L3: number) => ({
    nominalVoltageV: 230,
    loadA: { L1: complex(L1), L2: complex(L2), L3: complex(L3) },
  });
  // A potential divider, worked by hand: U0 · RE / (RE + U0/I).
  it.each([
    [32, 20, 169.2],
    [32, 200, 222.0],
    [100, 1, 69.7],
    [13, 5, 50.68],
  ])("%d A and %d Ω: %d V", (amps, ohm, volts) => {
    expect(Math.abs(magnitude(openPenPotential(loads(amps, 0, 0), ohm)) - volts)).toBeLessThanOrEqual(0.05); // printed digits
  });
  it("balanced loads leave nothing", () =>
    expect(magnitude(openPenPotential(loads(32, 32, 32), null))).toBeLessThan(1e-12));
  it("no load and no electrode: nothing to say, nothing there", () =>
    expect(magnitude(openPenPotential(loads(0, 0, 0), null))).toBe(0));
  it("all current through the rest of the installation when no electrode is there", () => {
    expect(magnitude(openPenPotential(loads(60, 20, 10), null))).toBeCloseTo((230 * Math.sqrt(2100)) / 90, 9);
  });
});

describe("open-neutral working agrees with the phasors", () => {
  const line = (load: number, fedBack = 0) => ({ load: plain("I", load), fedBack: plain("G", fedBack) });
  const spec = (ohm: number, ...lines: readonly ReturnType<typeof line>[]) => ({
    u0: plain("U0", 230),
    lines,
    electrode: plain("RE", ohm),
    idle: plain("I0", 0),
  });
  it("single-phase: 32 A through 3.145 Ω is the touch voltage of 70 V", () => {
    const loads = { nominalVoltageV: 230, loadA: { L1: complex(32), L2: complex(0), L3: complex(0) } };
    const worked = knownValue(worstOpenPenPotential(spec(3.1445, line(32))));
    expect(worked).toBeCloseTo(70, 1);
    expect(worked).toBeCloseTo(magnitude(openPenPotential(loads, 3.1445)), 9);
  });
  it("single-phase: what feeds back goes through the electrode alone when nothing is drawn", () => {
    expect(knownValue(worstOpenPenPotential(spec(3, line(10, 16))))).toBeCloseTo(48, 9);
  });
  it("three lines at their most are balanced; one alone is the worst of them", () => {
    expect(knownValue(openPenPotentialAt(spec(2, line(60), line(60), line(60))))).toBeCloseTo(0, 9);
    expect(knownValue(worstOpenPenPotential(spec(2, line(60), line(60), line(60))))).toBeCloseTo(
      60 / (60 / 230 + 1 / 2),
      9,
    );
  });
  it("no state between the ends is worse, with generation on any line", () => {
    const amps = fc.double({ min: 0, max: 100, noNaN: true });
    const share = fc.double({ min: 0, max: 1, noNaN: true });
    fc.assert(
      fc.property(
        fc.array(fc.tuple(amps, amps, share, share), { minLength: 3, maxLength: 3 }),
        fc.double({ min: 0.1, max: 200, noNaN: true }),
        (lines, ohm) => {
          const worst = worstOpenPenPotential(spec(ohm, ...lines.map(([load, fed]) => line(load, fed))));
          const between = lines.map(([load, fed, a, b]) => line(load * a, fed * b));
          expect(knownValue(openPenPotentialAt(spec(ohm, ...between)))).toBeLessThanOrEqual(
            knownValue(worst) + 1e-9,
          );
        },
      ),
    );
  });
  it.each([
    [60, 20, 10, 10, 93.27],
    [40, 30, 20, 5, 29.29],
    [72, 40, 40, 20, 45.02],
    [100, 100, 60, 1, 18.78],
  ])("three-phase %d, %d, %d A and %d Ω: %d V", (L1, L2, L3, ohm, volts) => {
    const worked = knownValue(openPenPotentialAt(spec(ohm, line(L1), line(L2), line(L3))));
    const phasor = openPenPotential(
      { nominalVoltageV: 230, loadA: { L1: complex(L1), L2: complex(L2), L3: complex(L3) } },
      ohm,
    );
    expect(worked).toBeCloseTo(magnitude(phasor), 9);
    expect(Math.abs(worked - volts)).toBeLessThanOrEqual(0.005);
  });
  it("the neutral current is the phasor sum of the lines", () => {
    for (const loadA of [
      { L1: 72, L2: 40, L3: 40 },
      { L1: 60, L2: 20, L3: 10 },
      { L1: 5, L2: 0, L3: 30 },
    ]) {
      const turn: Record<Line, Complex> = {
        L1: polar(1, 0),
        L2: polar(1, (-2 * Math.PI) / 3),
        L3: polar(1, (2 * Math.PI) / 3),
      };
      const sum = LINES.map((line) => multiply(turn[line], complex(loadA[line]))).reduce((a, b) => ({
        re: a.re + b.re,
        im: a.im + b.im,
      }));
      expect(neutralCurrentA(loadA)).toBeCloseTo(magnitude(sum), 9);
    }
  });
});

describe("electrodeResistance", () => {
  const electrode = (
    resistance: number | null,
    rods: { ρ: number; L: number; d: number; n: number; s: number } | null,
  ) => {
    const job = blankJob({ id: "t", title: "t", jurisdiction: "england", phases: 1 });
    const described = {
      ...blankElectrode(),
      resistanceOhm: resistance === null ? NOT_RECORDED : known(resistance),
      rods: rods && {
        soilResistivityOhmM: known(rods.ρ),
        lengthM: known(rods.L),
        diameterMm: known(rods.d),
        count: known(rods.n),
        spacingM: known(rods.s),
      },
    };
    const located = locate({ ...job, earthing: { ...job.earthing, electrode: described } }).earthing
      .electrode;
    if (located === null) throw new Error("no electrode");
    return electrodeResistance(located, figures);
  };
  it.each([
    // ρ 55 Ω·m, 3 m, 25 mm: 17.12 Ω [reprint-rods]; the others follow from the same formula with ρ 100 Ω·m
    [55, 3, 25, 17.12],
    [100, 1.2, 14.2, 73.2],
    [100, 2.4, 14.2, 41.2],
    [100, 3.6, 14.2, 29.2],
    [100, 1.2, 9.5, 78.5],
  ])("ρ %d Ω·m, %d m of %d mm: %d Ω", (ρ, L, d, printed) => {
    const worked = knownValue(electrode(null, { ρ, L, d, n: 1, s: 1 }));
    expect(Math.abs(worked - printed)).toBeLessThanOrEqual(0.05); // the last printed digit
  });
  it("two rods 10 m apart, λ 1: 17.12 · (1 + 0.0511) / 2 (the group formula of the same report)", () => {
    const worked = knownValue(electrode(null, { ρ: 55, L: 3, d: 25, n: 2, s: 10 }));
    expect(Math.abs(worked / ((17.12 * (1 + 0.0511)) / 2) - 1)).toBeLessThanOrEqual(0.001);
  });
  it("a measurement goes before an estimate", () => {
    expect(knownValue(electrode(38, { ρ: 100, L: 1.2, d: 14.2, n: 1, s: 1 }))).toBe(38);
  });
  it("without either it asks for the measurement", () => {
    expect(electrode(null, null)).toMatchObject({
      kind: "unknown",
      missing: [{ path: "earthing.electrode.resistanceOhm" }],
    });
  });
});

describe("protective sizes", () => {
  const job = (mm2: number) => {
    const document = blankJob({ id: "t", title: "t", jurisdiction: "england", phases: 1 });
    return locate({
      ...document,
      earthing: { ...document.earthing, supplyNeutralMm2: known(mm2), earthingConductorMm2: known(mm2) },
    }).earthing;
  };
  it.each([
    [2.5, 2.5],
    [16, 16],
    [25, 16],
    [35, 16],
    [50, 25],
    [70, 35],
  ])(
    "beside a line conductor of %d mm² the table asks for %d [bs7671] table 54.7 [reprint-bonding]",
    (line, cpc) => {
      expect(knownValue(protectiveSizeByTable(job(line).supplyNeutralMm2))).toBe(cpc);
    },
  );
  it.each([
    [25, 10],
    [35, 10],
    [36, 16],
    [50, 16],
    [70, 25],
    [120, 35],
    [185, 50],
  ])("bonding on TN-C-S with a supply neutral of %d mm²: %d mm² [bs7671] table 54.8", (neutral, bonding) => {
    expect(knownValue(bondingSizeOnTncs(job(neutral).supplyNeutralMm2, earthing))).toBe(bonding);
  });
  it.each([
    [6, 6],
    [16, 8],
    [35, 17.5],
    [70, 25],
  ])(
    "bonding elsewhere with an earthing conductor of %d mm²: %d mm² [bs7671] 544.1.1",
    (conductor, bonding) => {
      expect(knownValue(bondingSizeElsewhere(job(conductor).earthingConductorMm2, figures))).toBe(bonding);
    },
  );
});
