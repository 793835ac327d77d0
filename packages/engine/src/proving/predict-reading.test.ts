import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { type Complex, complex } from "../quantities/index.ts";
import { FAULT_IDS, faultyChain } from "./apply-faults.ts";
import type { Fault } from "./fault.ts";
import type { MeterReading } from "./meter-reading.ts";
import { predictReading } from "./predict-reading.ts";

type Pair = readonly [number, number];
interface Case {
  readonly id: number;
  readonly lines: number;
  readonly V: readonly Pair[];
  readonly B: readonly Pair[];
  readonly E: readonly Pair[];
  readonly G: readonly Pair[];
  readonly faults: readonly (Record<string, unknown> & { readonly id: string })[];
  readonly reading: MeterReading;
}

const file = new URL("../../../../reference/faults/cases.json", import.meta.url);
const { cases }: { readonly cases: readonly Case[] } = JSON.parse(readFileSync(file, "utf8"));
const phasors = (pairs: readonly Pair[]): Complex[] => pairs.map(([re, im]) => complex(re, im));
const asFault = (fault: Case["faults"][number]): Fault =>
  ({
    ...fault,
    ...(Array.isArray(fault.factor) && { factor: complex(fault.factor[0], fault.factor[1]) }),
  }) as unknown as Fault;

const readingOf = (item: Case): MeterReading =>
  predictReading(faultyChain(item.lines, item.faults.map(asFault)), {
    voltageV: phasors(item.V),
    buildingA: phasors(item.B),
    chargePointA: phasors(item.E),
    generationA: phasors(item.G),
  });

/** Differences beyond 1e-9 of the largest number of the reading's kind, or of 1 where all are small. */
function differences(item: Case): string[] {
  const got = readingOf(item);
  const kinds = [
    ["V", [...got.V], [...item.reading.V]],
    ["I", [...got.I], [...item.reading.I]],
    ["P", [...got.P, got.totalP], [...item.reading.P, item.reading.totalP]],
    ["Q", [...got.Q, got.totalQ], [...item.reading.Q, item.reading.totalQ]],
    ["PF", [...got.PF], [...item.reading.PF]],
  ] as const;
  return kinds.flatMap(([kind, ours, theirs]) => {
    const scale = Math.max(1, ...theirs.map((value) => Math.abs(value ?? 0)));
    return theirs.flatMap((value, index) => {
      const own = ours[index] as number | null;
      if (value === null || own === null) return value === own ? [] : [`${kind}[${index}] ${own} ${value}`];
      return Math.abs(own - value) <= 1e-9 * scale ? [] : [`${kind}[${index}] ${own} ${value}`];
    });
  });
}

// Source: reference/faults, an independent simulator in Python with complex matrices, written from
// docs/fault-model.md alone.
describe("readings of faulty chains, against an independent simulator", () => {
  it("agrees on every case to 1e-9", () => {
    const wrong = cases.flatMap((item) => {
      const found = differences(item);
      return found.length === 0 ? [] : [{ id: item.id, faults: item.faults, found }];
    });
    expect(wrong).toEqual([]);
  });

  it("has at least 2,000 cases, and every fault stands alone in one and with another in one", () => {
    expect(cases.length).toBeGreaterThanOrEqual(2000);
    for (const id of FAULT_IDS) {
      expect(cases.some(({ faults }) => faults.length === 1 && faults[0]?.id === id)).toBe(true);
      expect(cases.some(({ faults }) => faults.length === 2 && faults.some((fault) => fault.id === id))).toBe(
        true,
      );
    }
  });
});
