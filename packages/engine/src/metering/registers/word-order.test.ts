import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { EngineError } from "../../quantities/index.ts";
import {
  encodeRegisters,
  REGISTER_TYPES,
  type RegisterType,
  WORD_ORDERS,
  type WordOrder,
} from "./encoding.ts";
import { chooseOrder, type OrderQuestion } from "./word-order.ts";

const SUPPLY = { voltageV: [216, 253], frequencyHz: [49, 51] } as const;

const stored = (value: number, type: RegisterType, order: WordOrder, scale: number): readonly number[] =>
  encodeRegisters(value, { type, order, scale, unit: "1", sign: 1, absent: "none" });

function question(
  volts: readonly number[],
  hertz: number | null,
  how: {
    readonly type: RegisterType;
    readonly order: WordOrder;
    readonly scale: number;
    readonly hzScale?: number;
  },
  more: Partial<OrderQuestion> = {},
): OrderQuestion {
  const { type, order, scale, hzScale = scale } = how;
  return {
    voltages: volts.map((value) => stored(value, type, order, scale)),
    frequency: hertz === null ? null : stored(hertz, type, order, hzScale),
    types: REGISTER_TYPES,
    voltageScales: [1, 0.1, 0.01, 0.001],
    frequencyScales: [1, 0.1, 0.01, 0.001],
    ...SUPPLY,
    ...more,
  };
}

describe(chooseOrder, () => {
  it.each(WORD_ORDERS)("tells a float in %s", (order) => {
    const answer = chooseOrder(question([230.5, 229.1, 233], 49.98, { type: "float32", order, scale: 1 }));
    expect(answer).toMatchObject({
      state: "told",
      order,
      types: ["float32"],
      voltageScale: 1,
      frequencyScale: 1,
    });
    expect(answer.reasons.at(-1)).toContain(`${order} as float32`);
  });
  it.each(WORD_ORDERS)(
    "tells a whole number in %s and its scales; signed or not stays open, in words",
    (order) => {
      const answer = chooseOrder(
        question([230.5, 229.1, 233], 49.98, { type: "int32", order, scale: 0.1, hzScale: 0.01 }),
      );
      expect(answer).toMatchObject({
        state: "told",
        order,
        types: ["int32", "uint32"],
        voltageScale: 0.1,
        frequencyScale: 0.01,
      });
      expect(answer.reasons.join(" ")).toContain("signed");
    },
  );
  it("any voltages and any frequency a supply has, in any order and type, are never told wrongly", () => {
    const volt = fc.integer({ min: 2170, max: 2520 }).map((tenths) => tenths / 10);
    fc.assert(
      fc.property(
        fc.array(volt, { minLength: 1, maxLength: 3 }),
        fc.integer({ min: 4910, max: 5090 }),
        fc.constantFrom(...WORD_ORDERS),
        fc.constantFrom("float32" as const, "int32" as const, "uint64" as const),
        (volts, hundredths, order, type) => {
          const scale = type === "float32" ? 1 : 0.1;
          const answer = chooseOrder(
            question(volts, hundredths / 100, { type, order, scale, hzScale: type === "float32" ? 1 : 0.01 }),
          );
          if (answer.state === "told") expect(answer.order).toBe(order);
          else expect(answer.orders).toContain(order);
        },
      ),
    );
  });
  it("tells without the frequency, and says that it would confirm", () => {
    const answer = chooseOrder(question([230], null, { type: "float32", order: "CDAB", scale: 1 }));
    expect(answer).toMatchObject({ state: "told", order: "CDAB", frequencyScale: null });
    expect(answer.reasons.join(" ")).toContain("would confirm");
  });
  it("cannot tell where both bytes are alike, and can once the frequency is read", () => {
    const alike = {
      voltages: [[0x5a5a]],
      types: ["uint16"],
      voltageScales: [0.01],
      frequencyScales: [0.01],
    } as const;
    const answer = chooseOrder({ ...alike, ...SUPPLY, frequency: null });
    expect(answer).toMatchObject({ state: "cannot-tell", orders: ["ABCD", "BADC"] });
    expect(answer.reasons.join(" ")).toContain("ABCD, BADC all fit");
    const settled = chooseOrder({ ...alike, ...SUPPLY, frequency: [4998] });
    expect(settled).toMatchObject({ state: "told", order: "ABCD" });
    expect(settled.reasons.join(" ")).toContain("two registers may still stand in either order");
  });
  it("a number of two registers settles what one cannot", () => {
    const answer = chooseOrder({
      ...SUPPLY,
      voltages: [[2305]],
      frequency: [4998, 0],
      types: ["uint16", "uint32"],
      voltageScales: [0.1],
      frequencyScales: [0.01],
    });
    expect(answer).toMatchObject({ state: "told", order: "CDAB", types: ["uint16"] });
  });
  it("cannot tell between scales that both fit", () => {
    const answer = chooseOrder(
      question([230], 50, { type: "float32", order: "ABCD", scale: 1 }, { voltageScales: [1, 1.05] }),
    );
    expect(answer.state).toBe("cannot-tell");
    expect(answer.reasons.join(" ")).toContain("1 V, 1.05 V per count");
  });
  it("cannot tell where nothing fits, says what each order would give and where to look", () => {
    const late = chooseOrder({
      ...question([230], null, { type: "float32", order: "ABCD", scale: 1 }),
      voltages: [[0x0000, 0x4180]],
    });
    expect(late).toMatchObject({ state: "cannot-tell", orders: [], left: [] });
    expect(late.reasons.some((reason) => reason.startsWith("ABCD as float32"))).toBe(true);
    expect(late.reasons.at(-1)).toContain("one early nor one late");
    const dead = chooseOrder(question([230, 0, 0], 50, { type: "float32", order: "ABCD", scale: 1 }));
    expect(dead).toMatchObject({ state: "cannot-tell", left: [] });
  });
  it("says where only the frequency is out, and where no type has this length", () => {
    const slow = chooseOrder(question([230], 60, { type: "float32", order: "ABCD", scale: 1 }));
    expect(slow.reasons.join(" ")).toContain("no scale puts the frequency");
    const short = chooseOrder(
      question([230], 50, { type: "uint16", order: "ABCD", scale: 0.1 }, { types: ["float32"] }),
    );
    expect(short.reasons[0]).toContain("None of the types");
  });

  it.each<[string, Partial<OrderQuestion>]>([
    ["no voltage", { voltages: [] }],
    ["four lines", { voltages: [[1], [1], [1], [1]] }],
    ["lines of two lengths", { voltages: [[1], [1, 2]] }],
    ["three registers", { voltages: [[1, 2, 3]] }],
    ["no register", { voltages: [[]] }],
    ["a register that is none", { voltages: [[Number.NaN]], types: ["int16"] }],
    ["a frequency of three registers", { frequency: [1, 2, 3] }],
    ["no scale", { voltageScales: [] }],
    ["too many scales", { voltageScales: Array(1000).fill(1) }],
    ["a range that is none", { voltageV: [253, 216] }],
    ["a range of no numbers", { frequencyHz: [Number.NaN, Number.NaN] }],
  ])("%s is refused", (_what, more) => {
    const sound = question([230], 50, { type: "float32", order: "ABCD", scale: 1 });
    expect(() => chooseOrder({ ...sound, ...more })).toThrow(EngineError);
  });
});
