import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { EngineError } from "../../quantities/index.ts";
import { encodeRegisters } from "./encoding.ts";
import { readPlan } from "./read-plan.ts";
import { type OrderedRow, readMap, registerMapSchema, registersOf, rowsInOrder } from "./register-map.ts";

/** Invented for this test; no meter has it. */
const MAP = {
  format: "underfuse-register-map",
  formatVersion: 1,
  id: "example",
  table: "input",
  source: "invented",
  rows: [
    { quantity: "V", channel: "L1", address: 0, type: "uint16", order: "ABCD", scale: 0.1, unit: "V" },
    { quantity: "V", channel: "L2", address: 1, type: "uint16", order: "ABCD", scale: 0.1, unit: "V" },
    {
      quantity: "I",
      channel: "L1",
      address: 10,
      type: "int32",
      order: "CDAB",
      scale: 1,
      unit: "mA",
      sign: "import-positive",
    },
    {
      quantity: "P",
      channel: "L1",
      address: 20,
      type: "int32",
      order: "ABCD",
      scale: 0.001,
      unit: "kW",
      sign: "export-positive",
    },
    {
      quantity: "P",
      channel: "total",
      address: 22,
      type: "float32",
      order: "ABCD",
      scale: 1,
      unit: "W",
      sign: "unknown",
    },
    { quantity: "f", channel: "total", address: 30, type: "uint16", order: "ABCD", scale: 10, unit: "mHz" },
    {
      quantity: "energy-import",
      channel: "total",
      address: 40,
      type: "uint32",
      order: "ABCD",
      scale: 0.01,
      unit: "kWh",
      absent: "sunspec-counter",
    },
  ],
} as const;

const { rows: written } = registerMapSchema.parse(MAP);
const map = { rows: rowsInOrder(written, "ABCD") };
const REGISTERS: readonly (readonly [number, number])[] = [
  [0, 2305],
  [1, 2298],
  [10, 0x3e80],
  [11, 0],
  [20, 0xffff],
  [21, 0xf1a0],
  [22, 0x4566],
  [23, 0],
  [30, 4998],
  [40, 0],
  [41, 0],
];

describe(readMap, () => {
  it("gives values in the engine's units, import positive", () => {
    const { values, missing } = readMap(map, new Map(REGISTERS));
    expect(missing).toEqual([]);
    expect(values).toEqual([
      { quantity: "V", channel: "L1", value: 230.5, unit: "V", sign: "none" },
      { quantity: "V", channel: "L2", value: 229.8, unit: "V", sign: "none" },
      { quantity: "I", channel: "L1", value: 16, unit: "A", sign: "import-positive" },
      { quantity: "P", channel: "L1", value: 3680, unit: "W", sign: "import-positive" },
      { quantity: "P", channel: "total", value: 3680, unit: "W", sign: "unknown" },
      { quantity: "f", channel: "total", value: 49.98, unit: "Hz", sign: "none" },
      { quantity: "energy-import", channel: "total", value: null, unit: "Wh", sign: "none" },
    ]);
  });
  it("names what was not read, and gives no value for it", () => {
    const without = new Map(REGISTERS.filter(([address]) => address !== 21 && address !== 1));
    const { values, missing } = readMap(map, without);
    expect(missing).toEqual([1, 21]);
    expect(values.map(({ quantity, channel }) => `${quantity} ${channel}`)).not.toContain("P L1");
    expect(values).toHaveLength(5);
    expect(readMap(map, new Map()).values).toEqual([]);
  });
  it("takes a row's own order before the one given", () => {
    const [volts, , amps] = written;
    const rows = rowsInOrder([{ ...volts, order: undefined }, amps] as typeof written, "DCBA");
    expect(rows.map(({ order }) => order)).toEqual(["DCBA", "CDAB"]);
  });
  it("asks for its registers in whole requests", () => {
    expect(readPlan(registersOf(map))).toEqual([
      { address: 0, count: 2 },
      { address: 10, count: 2 },
      { address: 20, count: 4 },
      { address: 30, count: 1 },
      { address: 40, count: 2 },
    ]);
  });
  it.each([65_536, -1, 0.5, Number.NaN])("refuses a register of %f", (register) => {
    expect(() => readMap(map, new Map([[0, register]]))).toThrow(EngineError);
  });
  it("reads a map of any length, and every number it was given", () => {
    const [row] = map.rows;
    const rows = Array.from({ length: 30_000 }, (_, index) => ({ ...row, address: 2 * index }) as OrderedRow);
    expect(readMap({ rows }, new Map()).missing).toHaveLength(30_000);
    const how = { type: "float32", order: "DCBA", scale: 1, unit: "W", sign: 1, absent: "none" } as const;
    fc.assert(
      fc.property(fc.float({ noNaN: true, noDefaultInfinity: true }), (watts) => {
        const [high = 0, low = 0] = encodeRegisters(watts, how);
        const { values } = readMap(
          {
            rows: [
              {
                quantity: "P",
                channel: "L3",
                address: 7,
                ...how,
                sign: "export-positive",
                absent: undefined,
              },
            ],
          },
          new Map([
            [7, high],
            [8, low],
          ]),
        );
        expect(values[0]?.value).toBe(0 - watts);
      }),
    );
  });
});

describe("a map that cannot be", () => {
  const [volts, , amps, watts] = MAP.rows;
  it.each([
    ["an unknown unit", { ...volts, unit: "volts" }],
    ["a unit of something else", { ...volts, unit: "A" }],
    ["an address that is none", { ...volts, address: 65_536 }],
    ["a number over the end", { ...amps, address: 65_535 }],
    ["a scale of nothing", { ...volts, scale: 0 }],
    ["a scale that is no number", { ...volts, scale: Number.NaN }],
    ["a power without a direction", { ...watts, sign: undefined }],
    ["a voltage with one", { ...volts, sign: "import-positive" }],
    ["a field too many", { ...volts, note: "x" }],
  ])("%s is refused", (_what, row) => {
    expect(registerMapSchema.safeParse({ ...MAP, rows: [row] }).success).toBe(false);
  });
  it("one quantity twice, none, and far too many are refused", () => {
    expect(registerMapSchema.safeParse({ ...MAP, rows: [volts, volts] }).success).toBe(false);
    expect(registerMapSchema.safeParse({ ...MAP, rows: [] }).success).toBe(false);
    expect(registerMapSchema.safeParse({ ...MAP, rows: Array(100_000).fill(volts) }).success).toBe(false);
  });
  it("whatever it is, the schema throws nothing", () => {
    fc.assert(
      fc.property(fc.anything(), (value) => void registerMapSchema.safeParse({ ...MAP, rows: [value] })),
    );
  });
});
