/**
 * Meters that follow the SunSpec models 201 to 204 (whole numbers with scale factors in registers of their
 * own) and 211 to 214 (floats): their numbers from a block of registers.
 *
 * Finding the blocks: see `sunspec-walk.ts`. Meters with a map of their own: see `register-map.ts`.
 *
 * Sign: the models say "total real power" and no more. A positive W may be import or export, and both are met;
 * every power, current and power factor given back says "unknown".
 *
 * @module
 */
import { EngineError } from "../../quantities/index.ts";
import type { Citation } from "../../worked/index.ts";
import { decodeRegisters, type RegisterEncoding, type RegisterUnit } from "./encoding.ts";
import type { RegisterRead } from "./read-plan.ts";
import type { MapReading, MeterChannel, MeterQuantity, MeterValue } from "./register-map.ts";
import { registersAt } from "./registers-at.ts";
import type { SunspecBlock } from "./sunspec-walk.ts";

/** One point of a model, as the models repository has it. */
export interface SunspecPoint {
  /** From the register with the model's number. */
  readonly offset: number;
  readonly name: string;
  readonly type: "int16" | "uint16" | "sunssf" | "acc32" | "float32" | "bitfield32";
  /** Point that holds the power of ten. */
  readonly scaleFactor: string | null;
  readonly unit: "A" | "V" | "Hz" | "W" | "VA" | "var" | "Pct" | "PF" | "Wh" | "VAh" | "varh" | null;
}

export interface SunspecMeterModel {
  readonly id: number;
  readonly title: string;
  /** Registers after number and length. */
  readonly length: number;
  readonly points: readonly SunspecPoint[];
  /** Points every meter of the model must have. Meters without some of them are met. */
  readonly mandatory: readonly string[];
  readonly citation: Citation;
}

export interface SunspecTables {
  /** Addresses at which the marker may stand, in the order in which they are tried. */
  readonly bases: { readonly addresses: readonly number[]; readonly citation: Citation };
  /** Greatest power of ten, either way. */
  readonly scaleFactorLimit: { readonly exponent: number; readonly citation: Citation };
  /** What registers hold where the meter has nothing to say: values of the types, in the engine's code. */
  readonly notImplemented: Citation;
  readonly meters: readonly SunspecMeterModel[];
}

/** A reading of a block, and what to know before relying on it. */
export interface SunspecReading extends MapReading {
  /** Sentences for the reader. The first says that the sign is not known. */
  readonly remarks: readonly string[];
}

const REGISTERS_OF = { int16: 1, uint16: 1, sunssf: 1, acc32: 2, float32: 2, bitfield32: 2 } as const;

const SIGN_UNKNOWN =
  "The model does not say whether a positive W is import or export. Switch a known load on: where W rises and the imported energy counts, import is positive; where W falls, export is.";

/**
 * Registers of each point of a block, number and length included, for `readPlan`.
 *
 * Reading the first two again with the rest shows whether the block still stands where it was found. A block
 * of floats takes 126 registers, one more than a request may ask for, so it takes two.
 *
 * Source: the model's own.
 */
export function sunspecRegisters(model: SunspecMeterModel, block: SunspecBlock): readonly RegisterRead[] {
  return model.points
    .filter((point) => isWithin(point, block))
    .map(({ offset, type }) => ({ address: block.address + offset, count: REGISTERS_OF[type] }));
}

/**
 * Numbers of a meter from its block.
 *
 *     value = count · 10^SF
 *
 * Read all registers of the block in one go where they fit: scale factors may change while the meter runs.
 *
 * @param block As found by the walk; its length counts, not the model's. Points beyond it do not exist
 * @param registers By zero-based address. Whole numbers, 0 to 65535
 * @returns Null for what the meter has not, and for a count whose scale factor it has not or that lies out
 *   of range. A count of 0 Wh is taken as not kept, as SunSpec has it.
 * @throws EngineError OUT_OF_DOMAIN for a register that cannot be one, or a block of another model.
 *
 * Source: the model's own; values of points not implemented: [sunspec-client] sunspec2/mb.py.
 */
export function readSunspecMeter(
  model: SunspecMeterModel,
  block: SunspecBlock,
  registers: ReadonlyMap<number, number>,
  tables: Pick<SunspecTables, "scaleFactorLimit">,
): SunspecReading {
  if (block.model !== model.id)
    throw new EngineError(
      "OUT_OF_DOMAIN",
      `The block holds model ${block.model} and was to be read as model ${model.id}. Take the model by the block's number.`,
      { block: block.model, model: model.id },
    );
  const points = new Map(
    model.points.filter((point) => isWithin(point, block)).map((point) => [point.name, point]),
  );
  const limit = tables.scaleFactorLimit.exponent;
  const missing = new Set<number>();
  const remarks = new Set([SIGN_UNKNOWN]);
  if (block.length !== model.length)
    remarks.add(
      `The block has ${block.length} registers where model ${model.id} has ${model.length}; what lies beyond the shorter of the two is left out.`,
    );

  const raw = (point: SunspecPoint, encoding: RegisterEncoding): number | null | undefined => {
    const read = registersAt(block.address + point.offset, REGISTERS_OF[point.type], registers);
    for (const address of read.missing) missing.add(address);
    return read.missing.length > 0 ? undefined : decodeRegisters(read.registers, encoding);
  };
  /** Undefined while the register was not read, null where it holds no scale factor. */
  const exponentOf = (name: string): number | null | undefined => {
    const point = points.get(name);
    if (point === undefined) return null;
    const exponent = raw(point, plain("int16"));
    if (typeof exponent === "number" && Math.abs(exponent) > limit) {
      remarks.add(
        `${name} is ${exponent}; a scale factor lies from −${limit} to ${limit}. What it scales is left open.`,
      );
      return null;
    }
    return exponent;
  };

  const values: MeterValue[] = [];
  for (const point of points.values()) {
    const meaning = meaningOf(point);
    if (meaning === undefined) continue;
    const exponent = point.scaleFactor === null ? 0 : exponentOf(point.scaleFactor);
    const count = raw(point, { ...plain(point.type), scale: 10 ** (exponent ?? 0), unit: meaning.countedIn });
    if (exponent === undefined || count === undefined) continue;
    if (exponent === null && count !== null)
      remarks.add(
        `${point.scaleFactor} holds no scale factor, so ${point.name} and the like cannot be told.`,
      );
    const { quantity, channel, unit, sign } = meaning;
    values.push({ quantity, channel, value: exponent === null ? null : count, unit, sign });
  }
  return { values, missing: [...missing].sort((a, b) => a - b), remarks: [...remarks] };
}

/** Where a number of a block stands. */
export function sunspecPlace(
  model: SunspecMeterModel,
  block: SunspecBlock,
  { quantity, channel }: Pick<MeterValue, "quantity" | "channel">,
): RegisterRead {
  const point = model.points.find((each) => {
    const meaning = meaningOf(each);
    return meaning?.quantity === quantity && meaning.channel === channel;
  });
  if (point === undefined)
    throw new EngineError("OUT_OF_DOMAIN", `Model ${model.id} has no ${quantity} of ${channel}.`, {
      model: model.id,
    });
  return { address: block.address + point.offset, count: REGISTERS_OF[point.type] };
}

const isWithin = ({ offset, type }: SunspecPoint, block: SunspecBlock): boolean =>
  offset + REGISTERS_OF[type] <= block.length + 2;

const plain = (type: SunspecPoint["type"]): RegisterEncoding => ({
  type: type === "sunssf" ? "int16" : type === "acc32" || type === "bitfield32" ? "uint32" : type,
  order: "ABCD",
  scale: 1,
  unit: "1",
  sign: 1,
  absent: type === "acc32" ? "sunspec-counter" : "sunspec",
});

interface Meaning extends Omit<MeterValue, "value"> {
  readonly countedIn: RegisterUnit;
}

const QUANTITY_OF: Readonly<Record<string, MeterQuantity>> = {
  PhV: "V",
  A: "I",
  W: "P",
  VAR: "Q",
  VA: "S",
  PF: "PF",
  Hz: "f",
  TotWhImp: "energy-import",
  TotWhExp: "energy-export",
};
const UNIT_OF = {
  V: "V",
  I: "A",
  P: "W",
  Q: "var",
  S: "VA",
  PF: "1",
  f: "Hz",
  "energy-import": "Wh",
  "energy-export": "Wh",
} as const satisfies Record<MeterQuantity, RegisterUnit>;
const CHANNEL_OF: Readonly<Record<string, MeterChannel>> = { "": "total", A: "L1", B: "L2", C: "L3" };

/** What a point is to the engine; undefined for what it has no use for: voltages between lines, apparent and reactive energy, events. */
function meaningOf({ name, unit }: SunspecPoint): Meaning | undefined {
  const [, stem = "", phase = ""] = /^(\w+?)(?:[pP]h([ABC]))?$/.exec(name) ?? [];
  const quantity = Object.hasOwn(QUANTITY_OF, stem) ? QUANTITY_OF[stem] : undefined;
  const channel = CHANNEL_OF[phase];
  if (quantity === undefined || channel === undefined || unit === null) return undefined;
  const hasDirection = quantity === "P" || quantity === "Q" || quantity === "I" || quantity === "PF";
  return {
    quantity,
    channel,
    unit: UNIT_OF[quantity],
    countedIn: unit === "Pct" ? "%" : UNIT_OF[quantity],
    sign: hasDirection ? "unknown" : "none",
  };
}
