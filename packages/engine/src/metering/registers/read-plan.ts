import { EngineError, requireInRange } from "../../quantities/index.ts";

/** A request for registers that follow one another. */
export interface RegisterRead {
  /** Zero-based, as on the line. */
  readonly address: number;
  readonly count: number;
}

/** Registers one request may ask for. Source: [modbus-application] 6.3 and 6.4. */
export const MOST_REGISTERS_IN_A_READ = 125;

/**
 * The fewest requests that read every span, none of them cut in two: halves of one number read at two
 * moments can make a number that never was.
 *
 * Spans that do not touch are read apart: a register between them may not exist, and a meter then refuses
 * the whole request.
 *
 * @param spans Registers of each number, in any order. Address 0 to 65535, count 1 to 125
 * @param mostRegisters Registers a request may ask for. 1 to 125; less where a meter answers no more
 * @throws EngineError OUT_OF_DOMAIN for a span that no request can hold.
 *
 * Source: [modbus-application] 6.3: 1 to 125 registers; 4.4: addresses 0 to 65535.
 *
 * @example
 * readPlan([{ address: 0, count: 2 }, { address: 2, count: 2 }, { address: 4, count: 2 }], 5); // → [{ address: 0, count: 4 }, { address: 4, count: 2 }]
 */
export function readPlan(
  spans: readonly RegisterRead[],
  mostRegisters: number = MOST_REGISTERS_IN_A_READ,
): readonly RegisterRead[] {
  requireWhole("mostRegisters", mostRegisters, 1, MOST_REGISTERS_IN_A_READ);
  for (const { address, count } of spans) {
    requireWhole("count", count, 1, mostRegisters);
    requireWhole("address", address, 0, 0x1_0000 - count);
  }
  const reads: RegisterRead[] = [];
  for (const span of [...spans].sort((a, b) => a.address - b.address)) {
    const last = reads.at(-1);
    const end = span.address + span.count;
    if (last !== undefined && span.address <= last.address + last.count) {
      const count = Math.max(last.count, end - last.address);
      if (count <= mostRegisters) {
        reads[reads.length - 1] = { address: last.address, count };
        continue;
      }
    }
    reads.push({ address: span.address, count: span.count });
  }
  return reads;
}

function requireWhole(name: string, value: number, min: number, max: number): void {
  requireInRange(name, value, min, max);
  if (!Number.isInteger(value))
    throw new EngineError("OUT_OF_DOMAIN", `${name} is ${value}; it must be a whole number.`, {
      name,
      value,
    });
}
