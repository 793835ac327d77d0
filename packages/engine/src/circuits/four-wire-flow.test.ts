import { readFileSync } from "node:fs";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type Complex, complex, LINES, type Line, magnitude, subtract } from "../quantities/index.ts";
import { type FourWireLoad, type FourWireNetwork, fourWireFlow, type LoadModel } from "./four-wire-flow.ts";

interface Oracle {
  readonly tool: { readonly name: string; readonly version: string };
  readonly networks: readonly {
    readonly id: string;
    readonly nominalVoltageV: number;
    readonly sections: readonly {
      readonly id: string;
      readonly from: string;
      readonly to: string;
      readonly lines: readonly Line[];
      readonly lineResistanceOhm: number;
      readonly lineReactanceOhm: number;
      readonly neutralResistanceOhm: number;
      readonly neutralReactanceOhm: number;
    }[];
    readonly loads: readonly (FourWireLoad & { readonly id: string })[];
    readonly results: {
      readonly nodes: Readonly<Record<string, Partial<Record<Line | "neutralToSourceNeutral", Complex>>>>;
      readonly sections: Readonly<Record<string, Partial<Record<Line | "N", Complex>>>>;
    };
  }[];
}

const read = (name: string): Oracle =>
  JSON.parse(readFileSync(new URL(`../../../../reference/networks/${name}`, import.meta.url), "utf8"));

const networkOf = (network: Oracle["networks"][number]): FourWireNetwork => ({
  nominalVoltageV: network.nominalVoltageV,
  source: "source",
  sections: network.sections.map(({ id, from, to, lines, ...z }) => ({
    id,
    from,
    to,
    lines,
    lineOhm: complex(z.lineResistanceOhm, z.lineReactanceOhm),
    neutralOhm: complex(z.neutralResistanceOhm, z.neutralReactanceOhm),
  })),
  loads: network.loads,
});

/** The issue asks for 1e-6 per unit; the sweep settles far below it, and so does the oracle. */
const VOLTAGE_PU = 1e-9;

describe.each(["four_wire.json", "unbalanced_feeder.json"])("fourWireFlow against %s", (file) => {
  const oracle = read(file);
  it(`has networks, solved by ${oracle.tool.name} ${oracle.tool.version}`, () => {
    expect(oracle.networks.length).toBeGreaterThanOrEqual(file === "four_wire.json" ? 30 : 6);
  });
  it.each(oracle.networks.map((network) => [network.id, network] as const))("%s", (_id, network) => {
    const flow = fourWireFlow(networkOf(network));
    if (flow === null) throw new Error("did not settle");
    const largestA = Math.max(
      ...Object.values(network.results.sections).flatMap((section) => Object.values(section).map(magnitude)),
      1,
    );
    for (const [node, results] of Object.entries(network.results.nodes)) {
      for (const [name, expected] of Object.entries(results)) {
        const got =
          name === "neutralToSourceNeutral" ? flow.neutralV(node) : flow.voltageV(node, name as Line);
        expect(
          magnitude(subtract(got as Complex, expected)) / network.nominalVoltageV,
          `${node} ${name}`,
        ).toBeLessThan(VOLTAGE_PU);
      }
    }
    for (const [section, results] of Object.entries(network.results.sections)) {
      for (const [conductor, expected] of Object.entries(results)) {
        const got = flow.currentA(section, conductor as Line);
        expect(
          magnitude(subtract(got as Complex, expected)) / largestA,
          `${section} ${conductor}`,
        ).toBeLessThan(1e-8);
      }
    }
  });
});

const oneSection = (
  loads: readonly FourWireLoad[],
  lineOhm = complex(0.07332),
  neutralOhm = lineOhm,
): FourWireNetwork => ({
  nominalVoltageV: 230,
  source: "source",
  sections: [{ id: "s", from: "source", to: "end", lines: LINES, lineOhm, neutralOhm }],
  loads,
});
const drawing = (amps: readonly number[], model: LoadModel = "constant-current"): readonly FourWireLoad[] =>
  LINES.map((line, index) => ({
    node: "end",
    line,
    model,
    activePowerW: 230 * (amps[index] ?? 0),
    reactivePowerVar: 0,
  }));

describe("fourWireFlow, by hand", () => {
  const dropV = (flow: NonNullable<ReturnType<typeof fourWireFlow>>, line: Line) =>
    230 - magnitude(flow.voltageV("end", line) as Complex);

  it("balanced load: no neutral current, and the drop of one conductor on each line", () => {
    const flow = fourWireFlow(oneSection(drawing([30, 30, 30])));
    if (flow === null) throw new Error("did not settle");
    expect(magnitude(flow.currentA("s", "N") as Complex)).toBeLessThan(1e-12);
    for (const line of LINES) expect(dropV(flow, line)).toBeCloseTo(0.07332 * 30, 9);
  });
  it("one line alone drops in both conductors", () => {
    const flow = fourWireFlow(oneSection(drawing([32, 0, 0])));
    if (flow === null) throw new Error("did not settle");
    expect(dropV(flow, "L1")).toBeCloseTo(2 * 0.07332 * 32, 9);
  });
  it("a lightly loaded line may rise above the source", () => {
    const flow = fourWireFlow(oneSection(drawing([60, 20, 10])));
    if (flow === null) throw new Error("did not settle");
    expect(dropV(flow, "L3")).toBeLessThan(-1);
  });
  it("60, 20 and 10 A return 45.826 A while the voltages are still apart by a third of a turn", () => {
    const flow = fourWireFlow(oneSection(drawing([60, 20, 10]), complex(1e-9)));
    expect(magnitude(flow?.currentA("s", "N") as Complex)).toBeCloseTo(Math.sqrt(2100), 6);
  });
  it("says so when the network cannot carry the power", () => {
    expect(fourWireFlow(oneSection(drawing([4000, 0, 0], "constant-power")))).toBeNull();
  });
  it("a line that does not reach a node has no voltage there", () => {
    const flow = fourWireFlow({
      ...oneSection([]),
      sections: [
        {
          id: "s",
          from: "source",
          to: "end",
          lines: ["L2"],
          lineOhm: complex(0.1),
          neutralOhm: complex(0.1),
        },
      ],
    });
    expect(flow?.voltageV("end", "L1")).toBeUndefined();
    expect(flow?.currentA("s", "L1")).toBeUndefined();
    expect(magnitude(flow?.voltageV("end", "L2") as Complex)).toBeCloseTo(230, 9);
  });
  it.each([
    [
      "a section nothing feeds",
      {
        sections: [
          {
            id: "s",
            from: "elsewhere",
            to: "end",
            lines: LINES,
            lineOhm: complex(1),
            neutralOhm: complex(1),
          },
        ],
      },
    ],
    [
      "a circle",
      {
        sections: [
          { id: "a", from: "x", to: "y", lines: LINES, lineOhm: complex(1), neutralOhm: complex(1) },
          { id: "b", from: "y", to: "x", lines: LINES, lineOhm: complex(1), neutralOhm: complex(1) },
        ],
      },
    ],
    [
      "a load on a node that is not there",
      {
        loads: [{ node: "loft", line: "L1", model: "constant-power", activePowerW: 1, reactivePowerVar: 0 }],
      },
    ],
  ] as const)("refuses %s", (_what, change) => {
    expect(() => fourWireFlow({ ...oneSection([]), ...(change as object) })).toThrow(
      expect.objectContaining({ code: "NOT_IN_TREE" }),
    );
  });
});

describe("fourWireFlow, for any small network", () => {
  const impedance = fc.double({ min: 1e-4, max: 0.1, noNaN: true });
  const power = fc.double({ min: -3000, max: 7000, noNaN: true });
  const model = fc.constantFrom<LoadModel>("constant-current", "constant-impedance", "constant-power");
  it("voltages follow from currents, and the neutral carries the sum of the lines", () => {
    fc.assert(
      fc.property(
        impedance,
        impedance,
        fc.array(fc.tuple(power, power, model), { minLength: 3, maxLength: 3 }),
        (r, x, loads) => {
          const z = complex(r, x);
          const flow = fourWireFlow(
            oneSection(
              LINES.map((line, i) => ({
                node: "end",
                line,
                model: loads[i]?.[2] ?? "constant-power",
                activePowerW: loads[i]?.[0] ?? 0,
                reactivePowerVar: (loads[i]?.[1] ?? 0) / 3,
              })),
              z,
              z,
            ),
          );
          if (flow === null) return;
          const currents = LINES.map((line) => flow.currentA("s", line) as Complex);
          const sum = currents.reduce((a, b) => ({ re: a.re + b.re, im: a.im + b.im }));
          expect(magnitude(subtract(flow.currentA("s", "N") as Complex, sum))).toBeLessThan(1e-9);
          const n = flow.neutralV("end");
          expect(n.re).toBeCloseTo(r * sum.re - x * sum.im, 9);
          expect(n.im).toBeCloseTo(r * sum.im + x * sum.re, 9);
        },
      ),
      { numRuns: 100 },
    );
  });
});
