/**
 * Where a meter's numbers stand, as rows of data, and a reading by them.
 *
 * A map is written from the meter's own manual. Nothing is guessed here: a register that was not read is
 * named, and a sign nobody has proved stays unknown.
 *
 * Sign: import from the network is positive in every value given back, except where it says "unknown".
 *
 * @module
 */
import * as z from "zod";
import { number, wholeNumber, words } from "../../job/index.ts";
import { LINES } from "../../quantities/index.ts";
import {
  decodeRegisters,
  REGISTER_TYPES,
  REGISTER_UNITS,
  type RegisterUnit,
  registerCount,
  WORD_ORDERS,
  type WordOrder,
} from "./encoding.ts";
import type { RegisterRead } from "./read-plan.ts";
import { registersAt } from "./registers-at.ts";

/** What a register can hold, with the units it may count in; the first of each is the one given back. */
const UNITS_OF = {
  V: ["V", "mV", "kV"],
  I: ["A", "mA", "kA"],
  P: ["W", "kW", "MW"],
  Q: ["var", "kvar", "Mvar"],
  S: ["VA", "kVA", "MVA"],
  PF: ["1", "%"],
  f: ["Hz", "mHz"],
  "energy-import": ["Wh", "kWh", "MWh"],
  "energy-export": ["Wh", "kWh", "MWh"],
} as const satisfies Record<string, readonly RegisterUnit[]>;
export type MeterQuantity = keyof typeof UNITS_OF;
const METER_QUANTITIES = Object.keys(UNITS_OF) as readonly MeterQuantity[];

export const METER_CHANNELS = [...LINES, "total"] as const;
export type MeterChannel = (typeof METER_CHANNELS)[number];

const SIGN_MEANINGS = ["import-positive", "export-positive", "unknown"] as const;

const row = z
  .strictObject({
    quantity: z.enum(METER_QUANTITIES),
    channel: z.enum(METER_CHANNELS).meta({ description: "For a voltage, total is the mean of the lines." }),
    address: wholeNumber(0, 0xffff).meta({
      description:
        "Zero-based, as on the line. Many manuals print it one higher, or with 30001 or 40001 on top.",
    }),
    type: z.enum(REGISTER_TYPES),
    order: z.enum(WORD_ORDERS).optional().meta({
      description:
        "Order of the bytes of longer numbers. Left out where the manual does not say it; it is then told from voltage and frequency.",
    }),
    scale: number(1e-10, 1e10).meta({ description: "What one count is worth, in the unit." }),
    unit: z.enum(REGISTER_UNITS),
    sign: z
      .enum(SIGN_MEANINGS)
      .optional()
      .meta({ description: "What a positive number means. Left out where the number has no sign." }),
    absent: z
      .enum(["sunspec", "sunspec-counter"])
      .optional()
      .meta({ description: "Given where the meter marks a value it has not as SunSpec does." }),
  })
  .superRefine(({ quantity, unit, address, type, sign }, context) => {
    const units: readonly RegisterUnit[] = UNITS_OF[quantity];
    const refuse = (path: string, message: string) =>
      context.addIssue({ code: "custom", path: [path], message });
    if (!units.includes(unit)) refuse("unit", `must be one of ${units.join(", ")} for ${quantity}`);
    if (address + registerCount(type) > 0x1_0000)
      refuse("address", "leaves no room for the number's registers");
    if ((quantity === "P" || quantity === "Q") && sign === undefined)
      refuse("sign", `must be one of ${SIGN_MEANINGS.join(", ")}: a power has a direction`);
    if ((quantity === "V" || quantity === "f" || quantity === "S") && sign !== undefined)
      refuse("sign", `must be left out: ${quantity} has no direction`);
  });

export const REGISTER_MAP_FORMAT = "underfuse-register-map";

/** Register map of one kind of meter, one table of it. */
export const registerMapSchema = z
  .strictObject({
    format: z.literal(REGISTER_MAP_FORMAT),
    formatVersion: z.literal(1),
    id: words(60),
    table: z.enum(["holding", "input"]).meta({ description: "Read with function 03, or with function 04." }),
    source: words(500).meta({ description: "Document and page the rows were taken from." }),
    rows: z.array(row).min(1).max(500),
  })
  .superRefine(({ rows }, context) => {
    const seen = new Set<string>();
    rows.forEach(({ quantity, channel }, index) => {
      const name = `${quantity} ${channel}`;
      if (seen.has(name))
        context.addIssue({
          code: "custom",
          path: ["rows", index],
          message: `repeats ${name}; keep one of them`,
        });
      seen.add(name);
    });
  })
  .meta({
    title: "Underfuse register map",
    description: "Where a meter's numbers stand in its registers, and how.",
  });

export type RegisterMap = z.infer<typeof registerMapSchema>;
export type RegisterRow = RegisterMap["rows"][number];
/** A row whose order is settled. */
export type OrderedRow = RegisterRow & { readonly order: WordOrder };

/** Rows with an order each: their own, or the one given where the map says none. */
export const rowsInOrder = (rows: readonly RegisterRow[], order: WordOrder): readonly OrderedRow[] =>
  rows.map((given) => ({ ...given, order: given.order ?? order }));

/** One number of a meter. */
export interface MeterValue {
  readonly quantity: MeterQuantity;
  readonly channel: MeterChannel;
  /** In `unit`; null where the registers were read and hold no number. */
  readonly value: number | null;
  readonly unit: "V" | "A" | "W" | "var" | "VA" | "1" | "Hz" | "Wh";
  /** What a positive value means: `none` where the quantity has no direction, `unknown` where nobody proved it. */
  readonly sign: "import-positive" | "unknown" | "none";
}

/** What a reading gave, and what it lacked. */
export interface MapReading {
  readonly values: readonly MeterValue[];
  /** Addresses that some value needs and that were not read, ascending, each once. Never taken as zero. */
  readonly missing: readonly number[];
}

/** Registers of each row, for {@link readPlan}. */
export const registersOf = ({ rows }: { readonly rows: readonly RegisterRow[] }): readonly RegisterRead[] =>
  rows.map(({ address, type }) => ({ address, count: registerCount(type) }));

/**
 * A meter's numbers by its map.
 *
 * @param registers By zero-based address, as read from the map's table. Whole numbers, 0 to 65535
 * @returns A value for each row whose registers were all read, in the engine's unit and import positive,
 *   and the addresses missing for the others.
 * @throws EngineError OUT_OF_DOMAIN for a register that cannot be one, or for a row the schema would refuse.
 *
 * Source: the map's own.
 */
export function readMap(
  map: { readonly rows: readonly OrderedRow[] },
  registers: ReadonlyMap<number, number>,
): MapReading {
  const missing = new Set<number>();
  const values = map.rows.flatMap((given): readonly MeterValue[] => {
    const read = registersAt(given.address, registerCount(given.type), registers);
    for (const address of read.missing) missing.add(address);
    if (read.missing.length > 0) return [];
    return [meterValueOf(given, read.registers)];
  });
  return { values, missing: [...missing].sort((a, b) => a - b) };
}

/** A row's number from its registers, in the engine's unit and import positive. */
export function meterValueOf(row: OrderedRow, registers: readonly number[]): MeterValue {
  const { quantity, channel, type, order, scale, unit, sign, absent = "none" } = row;
  return {
    quantity,
    channel,
    value: decodeRegisters(registers, {
      type,
      order,
      scale,
      unit,
      sign: sign === "export-positive" ? -1 : 1,
      absent,
    }),
    unit: UNITS_OF[quantity][0],
    sign: sign === undefined ? "none" : sign === "unknown" ? "unknown" : "import-positive",
  };
}
