import type { RegisterRead } from "./read-plan.ts";

/** One block of registers that says itself what it is. */
export interface SunspecBlock {
  readonly model: number;
  /** Address of the register with the model's number. */
  readonly address: number;
  /** Registers after number and length. */
  readonly length: number;
}

/** How far the walk has come, and what it needs next. */
export interface SunspecWalk {
  /** Address of the marker; null while none was found. */
  readonly base: number | null;
  readonly blocks: readonly SunspecBlock[];
  /** Registers to read before the walk goes on; null when it is over. */
  readonly next: RegisterRead | null;
  /** How it ended: `going-on` until it has. */
  readonly end:
    | "going-on"
    | "end-marker"
    /** No base holds the marker. */
    | "no-marker"
    /** The meter refused the next block's header: what was found stands, more may follow. */
    | "refused"
    /** A header that no model has, a block beyond the last address, or more blocks than any meter has. */
    | "broken";
}

/** "SunS". Source: [sunspec-client] sunspec2/modbus/client.py, scan. */
const MARKER = [0x5375, 0x6e53] as const;
/** Source: [sunspec-client] sunspec2/mb.py. */
const END_MODEL = 0xffff;
/** More than any device has; registers that repeat one number would otherwise be walked for an hour. Own judgement. */
const MOST_BLOCKS = 200;

/**
 * Looks for the marker and walks from block to block, each found by the length of the one before.
 *
 * Reads nothing itself: it says what to read next. Read it, add the registers to the map (or the address to
 * `refused`, where the meter answered with an exception or not at all), and ask again until `next` is null.
 * Number and length are asked for one by one, as some meters have no length behind the end marker.
 *
 * @param registers Everything read so far, by zero-based address. Whole numbers, 0 to 65535
 * @param bases Where the marker may stand, the likeliest first
 * @param refused First addresses of requests the meter refused
 * @returns Never throws; ends after 200 blocks at the latest.
 *
 * Source: [sunspec-client] sunspec2/modbus/client.py, scan.
 */
export function walkSunspec(
  registers: ReadonlyMap<number, number>,
  bases: readonly number[],
  refused: ReadonlySet<number> = new Set(),
): SunspecWalk {
  for (const base of bases) {
    if (refused.has(base)) continue;
    const marker = MARKER.map((_, index) => registers.get(base + index));
    if (marker.includes(undefined))
      return { base: null, blocks: [], next: { address: base, count: MARKER.length }, end: "going-on" };
    if (marker.every((register, index) => register === MARKER[index]))
      return blocksFrom(base, registers, refused);
  }
  return { base: null, blocks: [], next: null, end: "no-marker" };
}

function blocksFrom(
  base: number,
  registers: ReadonlyMap<number, number>,
  refused: ReadonlySet<number>,
): SunspecWalk {
  const blocks: SunspecBlock[] = [];
  const ended = (end: SunspecWalk["end"], next: RegisterRead | null = null): SunspecWalk => ({
    base,
    blocks,
    next,
    end,
  });
  let address = base + MARKER.length;
  while (address <= 0xffff && blocks.length < MOST_BLOCKS) {
    const model = registers.get(address);
    if (model === END_MODEL) return ended("end-marker");
    // No model has the number 0: registers that hold nothing would be walked to the last.
    if (model === 0) return ended("broken");
    const wanted = model === undefined ? address : address + 1;
    const length = registers.get(address + 1);
    if (model === undefined || length === undefined)
      return refused.has(wanted) ? ended("refused") : ended("going-on", { address: wanted, count: 1 });
    if (!isRegister(model) || !isRegister(length)) return ended("broken");
    if (address + 2 + length > 0x1_0000) return ended("broken");
    blocks.push({ model, address, length });
    address += 2 + length;
  }
  return ended("broken");
}

const isRegister = (value: number): boolean => Number.isInteger(value) && value >= 0 && value <= 0xffff;
