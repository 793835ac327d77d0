/**
 * Numbers as a meter's registers hold them: 16 bits each, from which longer numbers are put together.
 *
 * The protocol fixes the order of the two bytes within a register (the high one first) and nothing beyond
 * ([modbus-application] 4.2). Longer numbers are met in four orders, named after the bytes A to D of a
 * number whose high byte is A, in the order in which they arrive.
 *
 * Where the registers stand: see `register-map.ts`. Which order a meter uses: see `word-order.ts`.
 *
 * @module
 */
import { EngineError, requireInRange } from "../../quantities/index.ts";

export const REGISTER_TYPES = ["int16", "uint16", "int32", "uint32", "int64", "uint64", "float32"] as const;
export type RegisterType = (typeof REGISTER_TYPES)[number];

/**
 * - `ABCD`: high byte first throughout, as the protocol itself does it.
 * - `CDAB`: registers exchanged, the low one first.
 * - `BADC`: bytes exchanged within each register.
 * - `DCBA`: low byte first throughout.
 *
 * For 64 bits the four registers stand as they are or in reverse. For 16 bits ABCD and CDAB are the same,
 * and so are BADC and DCBA.
 */
export const WORD_ORDERS = ["ABCD", "CDAB", "BADC", "DCBA"] as const;
export type WordOrder = (typeof WORD_ORDERS)[number];

/** Units in which meters count, each as a multiple of the unit the engine computes in. */
const IN_ENGINE_UNIT = {
  V: 1,
  mV: 0.001,
  kV: 1000,
  A: 1,
  mA: 0.001,
  kA: 1000,
  W: 1,
  kW: 1000,
  MW: 1_000_000,
  var: 1,
  kvar: 1000,
  Mvar: 1_000_000,
  VA: 1,
  kVA: 1000,
  MVA: 1_000_000,
  Hz: 1,
  mHz: 0.001,
  "1": 1,
  "%": 0.01,
  Wh: 1,
  kWh: 1000,
  MWh: 1_000_000,
} as const;
export type RegisterUnit = keyof typeof IN_ENGINE_UNIT;
export const REGISTER_UNITS = Object.keys(IN_ENGINE_UNIT) as readonly RegisterUnit[];

/** How one number stands in its registers, and what it means. */
export interface RegisterEncoding {
  readonly type: RegisterType;
  readonly order: WordOrder;
  /** What one count is worth. [unit per count], 1e-10 to 1e10; 0.1 where the register counts tenths */
  readonly scale: number;
  readonly unit: RegisterUnit;
  /** −1 where the register counts the other way round. */
  readonly sign: 1 | -1;
  /**
   * What the registers hold where the meter has nothing to say: SunSpec's values of the type, SunSpec's
   * value of a counter (0), or nothing.
   */
  readonly absent: "sunspec" | "sunspec-counter" | "none";
}

/** Registers a number takes. */
export const registerCount = (type: RegisterType): 1 | 2 | 4 => {
  const bits = Number(type.replace(/\D+/, ""));
  return bits === 64 ? 4 : bits === 32 ? 2 : 1;
};

/**
 * A number from its registers, in the engine's unit (V, A, W, var, VA, Hz, 1, Wh).
 *
 *     value = sign · count · scale · unit
 *
 * @param registers As read, the lowest address first. Whole numbers, 0 to 65535; as many as the type takes
 * @returns Null where the meter says that it has no value, and for a float that is no finite number.
 * @throws EngineError OUT_OF_DOMAIN for a wrong number of registers, a register that cannot be one, or a
 *   scale out of range.
 *
 * Accuracy: exact to the last digit of a double; counts of 64 bits beyond 2⁵³ are rounded.
 *
 * Source: [modbus-application] 4.2 for the register; two's complement and IEEE 754 for the number.
 *
 * @example
 * decodeRegisters([0x5a0a, 0x0000], { type: "int32", order: "CDAB", scale: 0.01, unit: "V", sign: 1, absent: "none" }); // → 230.5
 */
export function decodeRegisters(registers: readonly number[], encoding: RegisterEncoding): number | null {
  const { type, order, sign } = encoding;
  const wanted = registerCount(type);
  if (registers.length !== wanted)
    throw new EngineError(
      "OUT_OF_DOMAIN",
      `${registers.length} registers were given; ${type} takes ${wanted}. Read them in one request and give all of them.`,
      { type, registers: registers.length, wanted },
    );
  for (const register of registers) requireRegister(register);
  const factor = factorOf(encoding);
  const count = countFrom(inOrder(registers, order), type);
  if (count === null || isAbsent(count, encoding)) return null;
  // A negative zero would be shown with its sign.
  return sign * times(Number(count), factor) + 0;
}

/**
 * The registers that hold a value: the reverse of {@link decodeRegisters}, for simulated meters and tests.
 *
 * @param value In the engine's unit. Rounded to a whole count, a float to the nearest that 32 bits can hold.
 * @throws EngineError OUT_OF_DOMAIN for a value the type cannot hold.
 *
 * Source: as for {@link decodeRegisters}.
 *
 * @example
 * encodeRegisters(230, { type: "float32", order: "ABCD", scale: 1, unit: "V", sign: 1, absent: "none" }); // → [0x4366, 0x0000]
 */
export function encodeRegisters(value: number, encoding: RegisterEncoding): readonly number[] {
  const { type, order, sign } = encoding;
  const count = sign * over(value, factorOf(encoding));
  const bytes = new DataView(new ArrayBuffer(8));
  if (type === "float32") {
    requireInRange("value in counts", count, -MOST_FLOAT32, MOST_FLOAT32);
    bytes.setFloat32(0, count);
  } else {
    const whole = Math.round(count);
    const [least, most] = rangeOf(type);
    requireInRange("value in counts", whole, least, most);
    const bits = 16 * registerCount(type);
    bytes.setBigUint64(0, BigInt.asUintN(bits, BigInt(whole)) << BigInt(64 - bits));
  }
  const registers = Array.from({ length: registerCount(type) }, (_, index) => bytes.getUint16(2 * index));
  // Every order is its own reverse.
  return inOrder(registers, order);
}

/** Greatest number a 32-bit float holds. */
const MOST_FLOAT32 = (2 - 2 ** -23) * 2 ** 127;

/** Least and greatest whole number a double can say and the type can hold. */
function rangeOf(type: Exclude<RegisterType, "float32">): readonly [least: number, most: number] {
  const bits = 16 * registerCount(type);
  const most = Number.MAX_SAFE_INTEGER;
  return type.startsWith("u")
    ? [0, Math.min(2 ** bits - 1, most)]
    : [Math.max(-(2 ** (bits - 1)), -most), Math.min(2 ** (bits - 1) - 1, most)];
}

function requireRegister(register: number): void {
  requireInRange("register", register, 0, 0xffff);
  if (!Number.isInteger(register))
    throw new EngineError(
      "OUT_OF_DOMAIN",
      `A register is ${register}; it must be a whole number. Give the register as read, before any scale.`,
      { register },
    );
}

/** The registers with the high byte of the number first. */
function inOrder(registers: readonly number[], order: WordOrder): readonly number[] {
  const words = order === "CDAB" || order === "DCBA" ? [...registers].reverse() : registers;
  return order === "BADC" || order === "DCBA"
    ? words.map((word) => ((word & 0xff) << 8) | (word >>> 8))
    : words;
}

/** Null for a float that is not a finite number. */
function countFrom(words: readonly number[], type: RegisterType): bigint | number | null {
  const bits = 16 * words.length;
  const raw = words.reduce((sum, word) => (sum << 16n) | BigInt(word), 0n);
  if (type !== "float32") return type.startsWith("u") ? raw : BigInt.asIntN(bits, raw);
  const bytes = new DataView(new ArrayBuffer(4));
  bytes.setUint32(0, Number(raw));
  const value = bytes.getFloat32(0);
  return Number.isFinite(value) ? value : null;
}

/** Source: [sunspec-client] sunspec2/mb.py, unimplemented values. */
function isAbsent(count: bigint | number, { type, absent }: RegisterEncoding): boolean {
  if (absent === "none" || typeof count === "number") return false;
  if (absent === "sunspec-counter") return count === 0n;
  const bits = BigInt(16 * registerCount(type));
  return count === (type.startsWith("u") ? (1n << bits) - 1n : -(1n << (bits - 1n)));
}

/** What one count is worth, in the engine's unit. */
export function factorOf({ scale, unit }: Pick<RegisterEncoding, "scale" | "unit">): number {
  requireInRange("scale", scale, 1e-10, 1e10);
  return scale * IN_ENGINE_UNIT[unit];
}

/** The divisor that a factor below 1 stands for. Dividing by 100 gives 49.98 where 0.01 · 4998 does not. */
function divisorOf(factor: number): number | null {
  const divisor = Math.round(1 / factor);
  return Math.abs(divisor * factor - 1) < 1e-12 ? divisor : null;
}

function times(count: number, factor: number): number {
  const divisor = divisorOf(factor);
  return divisor === null ? count * factor : count / divisor;
}

function over(value: number, factor: number): number {
  const divisor = divisorOf(factor);
  return divisor === null ? value / factor : value * divisor;
}
