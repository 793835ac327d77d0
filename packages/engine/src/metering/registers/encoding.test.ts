import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { EngineError } from "../../quantities/index.ts";
import {
  decodeRegisters,
  encodeRegisters,
  REGISTER_TYPES,
  REGISTER_UNITS,
  type RegisterEncoding,
  type RegisterType,
  registerCount,
  WORD_ORDERS,
  type WordOrder,
} from "./encoding.ts";

const encoding = (type: RegisterType, order: WordOrder = "ABCD", more: Partial<RegisterEncoding> = {}) =>
  ({ type, order, scale: 1, unit: "1", sign: 1, absent: "none", ...more }) as const;
const words = (hex: string): number[] => (hex.match(/.{4}/g) ?? []).map((word) => Number.parseInt(word, 16));
const decoded = (hex: string, type: RegisterType, order: WordOrder = "ABCD"): number | null =>
  decodeRegisters(words(hex), encoding(type, order));

describe("numbers in each order", () => {
  // Source: worked with another language's library for packed binary data: type, true value, registers as
  // they arrive high byte first, then what ABCD, CDAB, BADC and DCBA make of them.
  const table = [
    ["float32", 230, "43660000", 230, 2.4178003703460394e-41, 2.302153660398952e23, 3.6684592497559386e-41],
    ["float32", 16, "41800000", 16, 2.3496972649798533e-41, -5.969307250269429e-39, 4.600883247917672e-41],
    ["float32", 63, "427C0000", 63, 2.3850099862808387e-41, 4.029222362223026e36, 4.457530415017243e-41],
    ["float32", -1234.5, "C49A5000", -1234.5, 8641472512, -8.106420490117605e-23, 7.402359137795846e-39],
    [
      "float32",
      0.95,
      "3F733333",
      0.949999988079071,
      4.173439194232742e-8,
      1.5148424430942177e31,
      4.1781500925708315e-8,
    ],
    ["float32", 3680, "45660000", 3680, 2.48954685171947e-41, 2.3257654928133003e23, 3.6687395094488036e-41],
    [
      "float32",
      49.98,
      "4247EB85",
      49.97999954223633,
      -3.222002398308886e26,
      49797.91796875,
      -2.2125469781723288e-35,
    ],
    ["float32", 0, "00000000", 0, 0, 0, 0],
    ["float32", 1, "3F800000", 1, 2.2779507836064226e-41, -5.7856362579534463e-39, 4.600602988224807e-41],
    ["int32", 16, "00000010", 16, 1048576, 4096, 268435456],
    ["int32", 1600, "00000640", 1600, 104857600, 16390, 1074135040],
    ["int32", 23050, "00005A0A", 23050, 1510604800, 2650, 173670400],
    ["int32", -500, "FFFFFE0C", -500, -32702465, -62210, 218038271],
    ["int32", 100000, "000186A0", 100000, -2036334591, 16818310, -1601830656],
    ["int32", 3680000, "00382700", 3680000, 654311480, 939524135, 2570240],
  ] as const;
  it.each(table)("%s %f in %s", (type, value, hex, ...read) => {
    WORD_ORDERS.forEach((order, index) => {
      expect(decoded(hex, type, order), order).toBe(read[index]);
    });
    expect(encodeRegisters(value, encoding(type))).toEqual(words(hex));
  });

  it("a count up to 65535 with its registers exchanged is 65536 times too large", () => {
    for (const count of [16, 1600, 23050])
      expect(decodeRegisters(encodeRegisters(count, encoding("int32", "CDAB")), encoding("int32"))).toBe(
        count * 65_536,
      );
  });

  // Source: the same.
  it.each([
    ["FE0C", "int16", -500],
    ["FE0C", "uint16", 65_036],
    ["FFFF", "int16", -1],
    ["FFFF", "uint16", 65_535],
    ["8000", "int16", -32_768],
    ["8000", "uint16", 32_768],
    ["FFFFFE0C", "uint32", 4_294_966_796],
    ["43660000", "int32", 1_130_758_144],
    // One register late: the low word of one number joined to the high word of the next.
    ["00004180", "float32", 2.3496972649798533e-41],
  ] as const)("%s as %s is %f", (hex, type, value) => expect(decoded(hex, type)).toBe(value));

  // Source: [sunspec-client] sunspec2/tests/test_mb.py.
  it.each([
    ["1388", "int16", 5000],
    ["2710", "uint16", 10_000],
    ["12345678", "int32", 305_419_896],
    ["EDCBA988", "int32", -305_419_896],
    ["12345678", "uint32", 305_419_896],
    ["46FDE8DE", "float32", 32_500.43359375],
    // Rounded to what a double can say.
    ["1234567812345678", "int64", Number(1_311_768_465_173_141_112n)],
    ["EDCBA987EDCBA988", "int64", Number(-1_311_768_465_173_141_112n)],
    ["FFFFFFFFFFFFFFFF", "uint64", 2 ** 64],
  ] as const)("%s as %s is %f, as published", (hex, type, value) => expect(decoded(hex, type)).toBe(value));

  // Source: [modbus-application] 6.3, registers 108 to 110: 02 2B, 00 00, 00 64.
  it.each([
    ["022B", 555],
    ["0000", 0],
    ["0064", 100],
  ])("%s is %d, as the protocol's example has it", (hex, value) =>
    expect(decoded(hex, "uint16")).toBe(value),
  );

  it("64 bits stand in reverse where registers are exchanged", () => {
    expect(decoded("0004000300020001", "uint64", "CDAB")).toBe(0x0001_0002_0003_0004);
    expect(decoded("0400030002000100", "uint64", "DCBA")).toBe(0x0001_0002_0003_0004);
  });
});

describe("scale, unit and sign", () => {
  it.each([
    [[23_050], { scale: 0.01, unit: "V" }, 230.5],
    [[4998], { scale: 0.01, unit: "Hz" }, 49.98],
    [[3680], { scale: 0.001, unit: "kW" }, 3680],
    [[368], { scale: 0.01, unit: "kW" }, 3680],
    [[16_000], { scale: 1, unit: "mA" }, 16],
    [[950], { scale: 0.1, unit: "%" }, 0.95],
    [[0xfe0c], { unit: "W", sign: -1 }, 500],
    [[0], { unit: "W", sign: -1 }, 0],
  ] as const)("%j with %j is %f", (registers, more, value) => {
    expect(decodeRegisters(registers, encoding("int16", "ABCD", more))).toBe(value);
  });
  it("divides where the scale is one over a whole number, so that no digit comes in", () => {
    for (let count = 0; count < 1000; count++)
      expect(String(decodeRegisters([count], encoding("int16", "ABCD", { scale: 0.001 })))).toBe(
        String(count / 1000),
      );
  });
});

describe("values a meter has not", () => {
  // Source: [sunspec-client] sunspec2/mb.py and its test.
  it.each([
    ["8000", "int16"],
    ["FFFF", "uint16"],
    ["80000000", "int32"],
    ["FFFFFFFF", "uint32"],
    ["8000000000000000", "int64"],
    ["FFFFFFFFFFFFFFFF", "uint64"],
    ["7FC00000", "float32"],
  ] as const)("%s as %s", (hex, type) => {
    expect(decodeRegisters(words(hex), encoding(type, "ABCD", { absent: "sunspec" }))).toBeNull();
    if (type !== "float32") expect(decoded(hex, type)).not.toBeNull();
  });
  it("a counter of 0", () => {
    expect(decodeRegisters([0, 0], encoding("uint32", "ABCD", { absent: "sunspec-counter" }))).toBeNull();
    expect(decodeRegisters([0, 1], encoding("uint32", "ABCD", { absent: "sunspec-counter" }))).toBe(1);
  });
  it("a float that is no number, marked or not", () => {
    for (const hex of ["7FC00000", "FFC00000", "7F800000", "FF800000", "7F800001"])
      expect(decoded(hex, "float32")).toBeNull();
  });
});

describe("there and back", () => {
  const order = fc.constantFrom(...WORD_ORDERS);
  const sign = fc.constantFrom(1 as const, -1 as const);
  it.each(REGISTER_TYPES.filter((type) => type !== "float32"))("%s in every order", (type) => {
    const bits = 16 * registerCount(type);
    const most = Number.MAX_SAFE_INTEGER;
    const [min, max] = type.startsWith("u")
      ? [0, Math.min(2 ** bits - 1, most)]
      : [Math.max(-(2 ** (bits - 1)), -most), Math.min(2 ** (bits - 1) - 1, most)];
    fc.assert(
      fc.property(fc.maxSafeInteger(), order, sign, (any, byteOrder, way) => {
        const count = min + ((((any - min) % (max - min + 1)) + (max - min + 1)) % (max - min + 1));
        const how = encoding(type, byteOrder, { sign: way });
        expect(decodeRegisters(encodeRegisters(way * count, how), how)).toBe(way * count + 0);
      }),
    );
    for (const edge of [min, max])
      expect(decodeRegisters(encodeRegisters(edge, encoding(type)), encoding(type))).toBe(edge);
  });
  it("float32 in every order", () => {
    fc.assert(
      fc.property(
        fc.float({ noNaN: true, noDefaultInfinity: true }),
        order,
        sign,
        (value, byteOrder, way) => {
          const how = encoding("float32", byteOrder, { sign: way });
          expect(decodeRegisters(encodeRegisters(value, how), how)).toBe(value + 0);
        },
      ),
    );
  });
  it("with any scale a meter has", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: -32_768, max: 32_767 }),
        fc.integer({ min: -6, max: 6 }),
        fc.constantFrom(...REGISTER_UNITS),
        (count, power, unit) => {
          const how = encoding("int16", "ABCD", { scale: 10 ** power, unit });
          const value = decodeRegisters([count & 0xffff], how) ?? Number.NaN;
          expect(encodeRegisters(value, how)).toEqual([count & 0xffff]);
        },
      ),
    );
  });
  it("registers, whatever they hold", () => {
    fc.assert(
      fc.property(
        fc.array(fc.integer({ min: 0, max: 0xffff }), { minLength: 2, maxLength: 2 }),
        order,
        (registers, byteOrder) => {
          const how = encoding("int32", byteOrder);
          expect(encodeRegisters(decodeRegisters(registers, how) ?? Number.NaN, how)).toEqual(registers);
        },
      ),
    );
  });
});

describe("what cannot be", () => {
  it.each([
    [[], "int16"],
    [[1], "int32"],
    [[1, 2, 3], "float32"],
    [[1, 2], "int64"],
    [[-1], "int16"],
    [[65_536], "uint16"],
    [[Number.NaN], "uint16"],
    [[Number.POSITIVE_INFINITY], "uint16"],
    [[230.5], "uint16"],
  ] as const)("%j as %s is refused", (registers, type) => {
    expect(() => decodeRegisters(registers, encoding(type))).toThrow(EngineError);
  });
  it.each([0, -1, 1e11, Number.NaN])("a scale of %f is refused", (scale) => {
    expect(() => decodeRegisters([1], encoding("int16", "ABCD", { scale }))).toThrow("scale");
  });
  it.each([
    [40_000, "int16"],
    [-1, "uint16"],
    [2 ** 32, "uint32"],
    [2 ** 60, "int64"],
    [1e39, "float32"],
    [Number.NaN, "int16"],
    [Number.NaN, "float32"],
    [Number.POSITIVE_INFINITY, "float32"],
  ] as const)("%f does not go into %s", (value, type) => {
    expect(() => encodeRegisters(value, encoding(type))).toThrow("value in counts");
  });
  it("throws nothing but its own error", () => {
    fc.assert(
      fc.property(
        fc.array(fc.double(), { maxLength: 5 }),
        fc.constantFrom(...REGISTER_TYPES),
        fc.double(),
        (registers, type, scale) => {
          try {
            const value = decodeRegisters(registers, encoding(type, "ABCD", { scale }));
            expect(value === null || Number.isFinite(value)).toBe(true);
          } catch (error) {
            expect(error).toBeInstanceOf(EngineError);
          }
        },
      ),
    );
  });
});
