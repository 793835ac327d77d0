import { GREAT_BRITAIN } from "@underfuse/knowledge";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { decodeDump, runsOf } from "./decode-dump.ts";
import { encodeRegisters, WORD_ORDERS, type WordOrder } from "./encoding.ts";
import type { RegisterMap, RegisterRow } from "./register-map.ts";

const LIMITS = { voltageV: [216.2, 253], frequencyHz: [49, 51], mostA: 200 } as const;
const { sunspec } = GREAT_BRITAIN.metering;
type Given = Omit<RegisterRow, "address"> & { readonly is: number };

/** Invented; currents and powers of a house with a car on one line of three. */
const NUMBERS: readonly Given[] = [
  { quantity: "V", channel: "L1", type: "uint32", scale: 0.1, unit: "V", is: 236.9 },
  { quantity: "V", channel: "L2", type: "uint32", scale: 0.1, unit: "V", is: 239.6 },
  { quantity: "I", channel: "L1", type: "int32", scale: 1, unit: "mA", is: 20.1, sign: "import-positive" },
  { quantity: "I", channel: "L2", type: "int32", scale: 1, unit: "mA", is: 8.4, sign: "import-positive" },
  { quantity: "P", channel: "L1", type: "int32", scale: 1, unit: "W", is: 4745, sign: "unknown" },
  { quantity: "P", channel: "L2", type: "int32", scale: 1, unit: "W", is: -1980, sign: "unknown" },
  { quantity: "P", channel: "total", type: "int32", scale: 1, unit: "W", is: 2765, sign: "unknown" },
  { quantity: "PF", channel: "L1", type: "int16", scale: 0.001, unit: "1", is: 0.996 },
  { quantity: "PF", channel: "L2", type: "int16", scale: 0.001, unit: "1", is: -0.984 },
  { quantity: "f", channel: "total", type: "uint16", scale: 0.01, unit: "Hz", is: 49.98 },
];

const as = (type: RegisterRow["type"]) => (given: Given) => ({ ...given, type });
const volts16 = NUMBERS.map((given) => (given.quantity === "V" ? as("uint16")(given) : given));

/** A map with room after each number, and the registers of a meter that sends in the order given. */
function meter(numbers: readonly Given[], order: WordOrder, said?: WordOrder) {
  const registers = new Map<number, number>();
  const rows = numbers.map(({ is, ...given }, index): RegisterRow => {
    const address = 100 + 4 * index;
    const how = {
      type: given.type,
      order,
      scale: given.scale,
      unit: given.unit,
      sign: 1,
      absent: "none",
    } as const;
    for (const [at, register] of encodeRegisters(is, how).entries()) registers.set(address + at, register);
    return { ...given, address, ...(said && { order: said }) };
  });
  const map: RegisterMap = {
    format: "underfuse-register-map",
    formatVersion: 1,
    id: "invented",
    table: "input",
    source: "invented",
    rows,
  };
  return { map, registers };
}

const decode = (map: RegisterMap | null, registers: ReadonlyMap<number, number>) =>
  decodeDump({ table: null, registers, remarks: [] }, map, { sunspec, limits: LIMITS });
function decoded(numbers: readonly Given[], order: WordOrder, said?: WordOrder) {
  const { map, registers } = meter(numbers, order, said);
  const [table] = decode(map, registers).tables;
  if (table === undefined) throw new Error("no table");
  return table;
}
const valuesOf = (rows: readonly { readonly value: number | null }[]) => rows.map(({ value }) => value);

describe("word order", () => {
  it.each(WORD_ORDERS.filter((order) => order === "ABCD" || order === "CDAB"))(
    "%s is told from voltages of two registers",
    (order) => {
      const { order: told, rows } = decoded(NUMBERS, order);
      expect(told).toMatchObject({ state: "told", order, isAgainstMap: false });
      expect(valuesOf(rows)).toEqual(NUMBERS.map(({ is }) => is));
      expect(rows.map(({ plausible }) => plausible)).not.toContain("no");
    },
  );
  it("is told against the map, and said", () => {
    const { order, rows } = decoded(NUMBERS, "CDAB", "ABCD");
    expect(order).toMatchObject({ state: "told", order: "CDAB", isAgainstMap: true });
    expect(order?.reasons.at(-1)).toContain("The map says ABCD");
    expect(valuesOf(rows)).toEqual(NUMBERS.map(({ is }) => is));
  });
  it("is told from powers and currents where voltages take one register", () => {
    const { order, rows } = decoded(volts16, "CDAB");
    expect(order).toMatchObject({ state: "told", order: "CDAB" });
    expect(order?.reasons.at(-1)).toContain("agree with one another");
    expect(valuesOf(rows)).toEqual(NUMBERS.map(({ is }) => is));
  });
  it("cannot be told at no load; then it is the map's, or nobody's", () => {
    const idle = volts16.map((given) =>
      given.quantity === "I" || given.quantity === "P" ? { ...given, is: 0 } : given,
    );
    expect(decoded(idle, "CDAB", "CDAB").order).toMatchObject({ state: "as-map", order: null });
    expect(decoded(idle, "CDAB").order).toMatchObject({ state: "cannot-tell", order: null });
  });
  it("cannot be told where one order agrees and the other says nothing", () => {
    // 0.1 A and 23 W, exchanged, are 6.6 kA and 1.5 MW: impossible behind a fuse, but nothing here knows the fuse.
    const faint = volts16
      .filter(({ channel, quantity }) => channel === "L1" || quantity === "f")
      .map((given) =>
        given.quantity === "I"
          ? { ...given, is: 0.1 }
          : given.quantity === "P"
            ? { ...given, is: 23 }
            : given,
      );
    const { map, registers } = meter(faint, "CDAB");
    const orderBy = (mostA: number) =>
      decodeDump({ table: null, registers, remarks: [] }, map, { sunspec, limits: { ...LIMITS, mostA } })
        .tables[0]?.order?.state;
    expect([orderBy(10_000), orderBy(200)]).toEqual(["cannot-tell", "cannot-tell"]);
  });
  it("no voltage fits: names what would", () => {
    const tenTimes = NUMBERS.map((given) =>
      given.quantity === "V" ? { ...given, scale: 1, is: given.is * 10 } : given,
    );
    const { order } = decoded(tenTimes, "ABCD");
    expect(order?.state).toBe("cannot-tell");
    expect(order?.reasons.join(" ")).toContain("0.1 V per count");
  });
});

describe("addresses", () => {
  it.each([1, -1, 40_001])("%i too high is found and not applied", (shift) => {
    const { map, registers } = meter(NUMBERS, "CDAB");
    const off = new Map([...registers].map(([address, register]) => [address + shift, register]));
    const [table] = decode(map, off).tables;
    expect(table?.order?.state).toBe("cannot-tell");
    expect(table?.remarks.join(" ")).toContain(`Give --shift ${-shift} `);
  });
  it("of two places that make sense, the one given stands", () => {
    const { map } = meter(
      [{ quantity: "V", channel: "L1", type: "uint16", scale: 0.1, unit: "V", is: 230 }],
      "ABCD",
    );
    const [table] = decode(
      map,
      new Map([
        [100, 2300],
        [101, 2310],
      ]),
    ).tables;
    expect(table?.remarks).toEqual([]);
    expect(table?.rows[0]?.value).toBe(230);
  });
  it("names what is missing, and what no number used", () => {
    const { map, registers } = meter(NUMBERS, "CDAB");
    registers.delete(109);
    for (const address of [7, 8, 300]) registers.set(address, 1);
    const { tables, unused } = decode(map, registers);
    expect(tables[0]?.unread).toEqual([{ quantity: "I", channel: "L1", missing: [109] }]);
    expect(unused).toEqual([
      { from: 7, to: 8 },
      { from: 108, to: 108 },
      { from: 300, to: 300 },
    ]);
  });
  it("every register is used or named", () => {
    const { map } = meter(NUMBERS, "ABCD");
    fc.assert(
      fc.property(fc.uniqueArray(fc.integer({ min: 90, max: 150 })), (addresses) => {
        const { tables, unused } = decode(map, new Map(addresses.map((address) => [address, address])));
        const shown = [
          ...tables.flatMap(({ rows }) =>
            rows.flatMap(({ address, registers }) => registers.map((_, at) => address + at)),
          ),
          ...unused.flatMap(({ from, to }) => Array.from({ length: to - from + 1 }, (_, at) => from + at)),
        ];
        expect(shown.toSorted((a, b) => a - b)).toEqual(addresses.toSorted((a, b) => a - b));
      }),
    );
  });
  it("the other table is said", () => {
    const { map, registers } = meter(NUMBERS, "ABCD");
    const { tables } = decodeDump({ table: "holding", registers, remarks: [] }, map, {
      sunspec,
      limits: LIMITS,
    });
    expect(tables[0]?.remarks.join(" ")).toContain("Read the other table.");
  });
  it("runs end at a gap", () => {
    expect(runsOf([5, 3, 4, 9])).toEqual([
      { from: 3, to: 5 },
      { from: 9, to: 9 },
    ]);
  });
});

describe("plausibility", () => {
  const with_ = (quantity: string, channel: string, change: (is: number) => number) =>
    NUMBERS.map((given) =>
      given.quantity === quantity && given.channel === channel ? { ...given, is: change(given.is) } : given,
    );
  const rowIn = (numbers: readonly Given[], quantity: string, channel: string) =>
    decoded(numbers, "ABCD").rows.find((row) => row.quantity === quantity && row.channel === channel);

  it.each([
    ["a power a thousand times too large", "P", "L1", (is: number) => is * 1000, "no", "odd one"],
    ["a power factor of 1.3", "PF", "L1", () => 1.3, "no", "between −1 and 1"],
    ["a current beyond all", "I", "L2", () => 900, "no", "no more than 200 A"],
    ["a frequency of 20 Hz", "f", "total", () => 20, "no", "49 to 51 Hz"],
    ["a total of the magnitudes", "P", "total", () => 6725, "cannot-tell", "breaks the checks of total"],
  ] as const)("%s", (_what, quantity, channel, change, plausible, why) => {
    const row = rowIn(with_(quantity, channel, change), quantity, channel);
    expect(row?.plausible).toBe(plausible);
    expect(row?.why).toContain(why);
  });
  it("a total that counts the other way round is named so", () => {
    const { checks } = decoded(
      with_("P", "total", (is) => -is),
      "ABCD",
    );
    expect(checks.at(-1)?.words.join(" ")).toContain("opposite directions");
  });
  it("a voltage between lines is named so", () => {
    const one = NUMBERS.filter(({ channel }) => channel !== "L2");
    const between = one.map((given) => (given.quantity === "V" ? { ...given, is: 400 } : given));
    expect(rowIn(between, "V", "L1")?.why).toContain("voltage between lines");
  });
  it("a sound meter: the checks hold, and what stays open is said", () => {
    const { map, registers } = meter(NUMBERS, "CDAB");
    const { tables, cannotTell } = decode(map, registers);
    expect(tables[0]?.checks.map(({ channel, state }) => `${channel} ${state}`)).toEqual([
      "L1 agrees",
      "L2 agrees",
      "total agrees",
    ]);
    expect(cannotTell.map((words) => words.split(" ")[0])).toEqual(["Whether", "Which"]);
  });
});

describe("SunSpec", () => {
  /** Marker at the base given, the common model cut to two registers, then a meter of floats on one line. */
  function floats(base: number): Map<number, number> {
    const registers = new Map(
      [0x5375, 0x6e53, 1, 2, 7, 8, 211, 124].map((register, at) => [base + at, register]),
    );
    const model = sunspec.meters.find(({ id }) => id === 211);
    const block = base + 6;
    for (const { name, offset } of model?.points ?? []) {
      const is = { AphA: 20.1, PhVphA: 236.9, WphA: 4745, Hz: 49.98 }[name];
      if (is === undefined) continue;
      const how = { type: "float32", order: "ABCD", scale: 1, unit: "1", sign: 1, absent: "none" } as const;
      for (const [at, register] of encodeRegisters(is, how).entries())
        registers.set(block + offset + at, register);
    }
    return registers;
  }

  it("is decoded without a map, unproved signs and missing registers said", () => {
    const { tables, remarks } = decode(null, floats(40_000));
    const [table] = tables;
    const found = Object.fromEntries(
      (table?.rows ?? []).map((row) => [`${row.quantity} ${row.channel}`, row]),
    );
    expect(found["V L1"]).toMatchObject({
      value: 236.89999389648438,
      plausible: "yes",
      address: 40_006 + 12,
    });
    expect(found["P L1"]).toMatchObject({ value: 4745, sign: "unknown" });
    expect(found["V L1"]?.registers).toHaveLength(2);
    expect(table?.remarks.join(" ")).toMatch(/does not say whether .* not in the dump/);
    expect(remarks).toContain("SunSpec block 1 at 40002 is no meter's and is left out.");
    expect(remarks.join(" ")).toContain("read on from");
  });
  it("is found where a dump counts from one, and said", () => {
    const { tables, remarks } = decode(null, floats(40_001));
    expect(tables).toHaveLength(1);
    expect(remarks.join(" ")).toContain("The SunSpec marker stands at 40001");
  });
  it("without marker and without map nothing is decoded, and that is said", () => {
    expect(decode(null, new Map([[0, 1]]))).toMatchObject({ tables: [], cannotTell: [] });
    expect(decode(null, new Map([[0, 1]])).remarks.join(" ")).toContain("nothing could be decoded");
  });
  it("throws nothing behind a marker, whatever follows", () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 0, max: 0xffff }), { maxLength: 300 }), (after) => {
        const registers = [0x5375, 0x6e53, 203, 105, ...after].map((register, at): [number, number] => [
          at,
          register,
        ]);
        expect(decode(null, new Map(registers)).tables.length).toBeGreaterThan(0);
      }),
    );
  });
});
