import { GREAT_BRITAIN } from "@underfuse/knowledge";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { EngineError } from "../../quantities/index.ts";
import { encodeRegisters } from "./encoding.ts";
import { readPlan } from "./read-plan.ts";
import { readSunspecMeter, type SunspecMeterModel, sunspecRegisters } from "./sunspec.ts";

const TABLES = GREAT_BRITAIN.metering.sunspec;
const model = (id: number): SunspecMeterModel => {
  const found = TABLES.meters.find((each) => each.id === id);
  if (found === undefined) throw new Error(`no model ${id}`);
  return found;
};
const AT = 40_070;
const block = (id: number, length = model(id).length) => ({ model: id, address: AT, length });
/** A block in which nothing is implemented, but for the offsets given. */
function holding(id: number, given: Readonly<Record<number, number>>): ReadonlyMap<number, number> {
  const registers = new Map<number, number>([
    [AT, id],
    [AT + 1, model(id).length],
  ]);
  const absent = {
    int16: [0x8000],
    sunssf: [0x8000],
    uint16: [0xffff],
    acc32: [0, 0],
    float32: [0x7fc0, 0],
    bitfield32: [0xffff, 0xffff],
  };
  for (const { offset, type } of model(id).points.slice(2))
    for (const [index, register] of absent[type].entries()) registers.set(AT + offset + index, register);
  for (const [offset, register] of Object.entries(given)) registers.set(AT + Number(offset), register);
  return registers;
}
const read = (id: number, registers: ReadonlyMap<number, number>, length?: number) =>
  readSunspecMeter(model(id), block(id, length), registers, TABLES);
const shown = (id: number, registers: ReadonlyMap<number, number>) =>
  read(id, registers).values.filter(({ value }) => value !== null);

describe(readSunspecMeter, () => {
  it("whole numbers with their scale factors", () => {
    const [minusTwo, minusOne] = [0xfffe, 0xffff];
    const registers = holding(203, {
      ...{ 3: 1600, 6: minusTwo }, // AphA, A_SF
      ...{ 8: 0x5a0a, 15: minusTwo }, // PhVphA, V_SF
      ...{ 16: 4998, 17: minusTwo }, // Hz, Hz_SF
      ...{ 18: 0xfe0c, 22: 1 }, // W, W_SF
      ...{ 33: 950, 37: minusOne }, // PF, PF_SF
      ...{ 47: 1234, 54: 0 }, // TotWhImp, TotWh_SF
    });
    expect(shown(203, registers)).toEqual([
      { quantity: "I", channel: "L1", value: 16, unit: "A", sign: "unknown" },
      { quantity: "V", channel: "L1", value: 230.5, unit: "V", sign: "none" },
      { quantity: "f", channel: "total", value: 49.98, unit: "Hz", sign: "none" },
      { quantity: "P", channel: "total", value: -5000, unit: "W", sign: "unknown" },
      { quantity: "PF", channel: "total", value: 0.95, unit: "1", sign: "unknown" },
      { quantity: "energy-import", channel: "total", value: 1234, unit: "Wh", sign: "none" },
    ]);
  });
  it("floats", () => {
    const watts = encodeRegisters(-3680, {
      type: "float32",
      order: "ABCD",
      scale: 1,
      unit: "W",
      sign: 1,
      absent: "none",
    });
    const registers = holding(213, { 12: 0x4366, 13: 0, 28: watts[0] ?? 0, 29: watts[1] ?? 0 });
    expect(shown(213, registers)).toEqual([
      { quantity: "V", channel: "L1", value: 230, unit: "V", sign: "none" },
      { quantity: "P", channel: "total", value: -3680, unit: "W", sign: "unknown" },
    ]);
  });
  it("says that the sign is not known, first, and how to find it out", () => {
    for (const { id } of TABLES.meters)
      expect(read(id, holding(id, {})).remarks[0]).toContain("does not say");
  });
  it("every channel and quantity a load manager needs, in every model", () => {
    for (const { id } of TABLES.meters) {
      const { values, missing } = read(id, holding(id, {}));
      expect(missing).toEqual([]);
      expect(values.every(({ value }) => value === null)).toBe(true);
      const names = values.map(({ quantity, channel }) => `${quantity} ${channel}`);
      expect(new Set(names).size).toBe(names.length);
      for (const quantity of ["V", "I", "P", "Q", "S", "PF", "energy-import", "energy-export"])
        for (const channel of ["L1", "L2", "L3", "total"]) expect(names).toContain(`${quantity} ${channel}`);
      expect(names).toContain("f total");
      expect(names).toHaveLength(33);
    }
  });
  it("a scale factor that is missing, not kept or out of range leaves the value open, not as counted", () => {
    const volts = { 8: 23_050 };
    expect(shown(203, holding(203, volts))).toEqual([]);
    expect(read(203, holding(203, volts)).remarks.join(" ")).toContain("V_SF holds no scale factor");
    // −2 read as the unsigned 65534 would overflow; 100 and −100 are none.
    for (const exponent of [100, 0xff9c]) {
      const reading = read(203, holding(203, { ...volts, 15: exponent }));
      expect(reading.values.every(({ value }) => value === null)).toBe(true);
      expect(reading.remarks.join(" ")).toContain("a scale factor lies from");
    }
    const unread = new Map(holding(203, { ...volts, 15: 0xfffe }));
    unread.delete(AT + 15);
    const reading = read(203, unread);
    expect(reading.missing).toEqual([AT + 15]);
    expect(reading.values.some(({ quantity }) => quantity === "V")).toBe(false);
  });
  it("names registers that were not read and gives no value for them", () => {
    const registers = new Map(holding(213, { 12: 0x4366, 13: 0 }));
    registers.delete(AT + 13);
    const { values, missing } = read(213, registers);
    expect(missing).toEqual([AT + 13]);
    expect(values.some(({ quantity, channel }) => quantity === "V" && channel === "L1")).toBe(false);
    expect(read(201, new Map()).values).toEqual([]);
  });
  it("goes by the block's own length", () => {
    const { values, remarks, missing } = read(203, new Map(), 20);
    expect([values, remarks.length > 1]).toEqual([[], true]);
    expect(Math.max(...missing)).toBeLessThan(AT + 22);
    expect(read(213, holding(213, {}), 10_000).missing).toEqual([]);
  });
  it("refuses registers that are none and takes all that are", () => {
    expect(() => read(203, holding(203, { 8: 70_000 }))).toThrow(EngineError);
    expect(() => read(203, holding(203, { 8: Number.NaN }))).toThrow(EngineError);
    expect(() => readSunspecMeter(model(203), block(213), new Map(), TABLES)).toThrow("model 213");
    fc.assert(
      fc.property(
        fc.constantFrom(...TABLES.meters),
        fc.array(fc.integer({ min: 0, max: 0xffff }), { minLength: 126, maxLength: 126 }),
        ({ id }, registers) => {
          const { values, missing } = read(
            id,
            new Map(registers.map((register, index) => [AT + index, register])),
          );
          expect(missing).toEqual([]);
          expect(values).toHaveLength(33);
          expect(values.every(({ value }) => value === null || Number.isFinite(value))).toBe(true);
        },
      ),
    );
  });
});

describe(sunspecRegisters, () => {
  it("whole numbers take one request, scale factors with them; floats take two", () => {
    for (const id of [201, 202, 203, 204])
      expect(readPlan(sunspecRegisters(model(id), block(id)))).toEqual([{ address: AT, count: 107 }]);
    for (const id of [211, 212, 213, 214])
      expect(readPlan(sunspecRegisters(model(id), block(id)))).toEqual([
        { address: AT, count: 124 },
        { address: AT + 124, count: 2 },
      ]);
  });
});

describe("the models", () => {
  const SIZE = { int16: 1, uint16: 1, sunssf: 1, acc32: 2, float32: 2, bitfield32: 2 };
  it("are all there", () => {
    expect(TABLES.meters.map(({ id }) => id)).toEqual([201, 202, 203, 204, 211, 212, 213, 214]);
  });
  it.each(TABLES.meters)("$id: points follow one another and fill it", ({ points, length, mandatory }) => {
    let next = 0;
    for (const { offset, type, name, scaleFactor } of points) {
      expect(offset, name).toBe(next);
      next += SIZE[type];
      if (scaleFactor !== null)
        expect(points.find((point) => point.name === scaleFactor)?.type, name).toBe("sunssf");
    }
    expect(next).toBe(length + 2);
    const names = points.map(({ name }) => name);
    expect(new Set(names).size).toBe(names.length);
    for (const name of mandatory) expect(names).toContain(name);
  });
  // Source: [sunspec-models] json/model_203.json and model_213.json.
  it.each([
    [203, "PhVphA", 8],
    [203, "Hz", 16],
    [203, "W", 18],
    [203, "TotWhExp", 38],
    [203, "TotWhImp", 46],
    [203, "Evt", 105],
    [213, "PhVphA", 12],
    [213, "W", 28],
    [213, "TotWhImp", 68],
    [213, "Evt", 124],
    [201, "PPVphAB", 12],
  ])("%d has %s at %d", (id, name, offset) => {
    expect(model(id).points.find((point) => point.name === name)?.offset).toBe(offset);
  });
});
