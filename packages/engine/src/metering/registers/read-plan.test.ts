import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { EngineError } from "../../quantities/index.ts";
import { MOST_REGISTERS_IN_A_READ, readPlan } from "./read-plan.ts";

describe(readPlan, () => {
  it("takes 126 registers in two requests, no number cut in two", () => {
    const floats = Array.from({ length: 63 }, (_, index) => ({ address: 40_070 + 2 * index, count: 2 }));
    expect(readPlan(floats)).toEqual([
      { address: 40_070, count: 124 },
      { address: 40_194, count: 2 },
    ]);
  });
  it("reads spans apart that do not touch, joins those that overlap, and takes them in any order", () => {
    expect(
      readPlan([
        { address: 20, count: 2 },
        { address: 2, count: 2 },
        { address: 0, count: 2 },
        { address: 1, count: 2 },
      ]),
    ).toEqual([
      { address: 0, count: 4 },
      { address: 20, count: 2 },
    ]);
    expect(readPlan([])).toEqual([]);
  });
  it("every span lies whole in one request, and no request is too long", () => {
    const span = fc.record({
      address: fc.integer({ min: 0, max: 400 }),
      count: fc.integer({ min: 1, max: 4 }),
    });
    fc.assert(
      fc.property(fc.array(span), fc.integer({ min: 4, max: 125 }), (spans, most) => {
        const reads = readPlan(spans, most);
        for (const { address, count } of spans)
          expect(
            reads.some((read) => read.address <= address && address + count <= read.address + read.count),
          ).toBe(true);
        expect(reads.every(({ count }) => count <= most)).toBe(true);
        expect(reads.length).toBeLessThanOrEqual(spans.length);
      }),
    );
  });
  it.each([
    [{ address: 0, count: 126 }, MOST_REGISTERS_IN_A_READ],
    [{ address: 0, count: 0 }, 125],
    [{ address: 65_535, count: 2 }, 125],
    [{ address: -1, count: 1 }, 125],
    [{ address: 0.5, count: 1 }, 125],
    [{ address: Number.NaN, count: 1 }, 125],
    [{ address: 0, count: 1 }, 126],
    [{ address: 0, count: 1 }, 0],
  ])("%j in requests of %d is refused", (span, most) => {
    expect(() => readPlan([span], most)).toThrow(EngineError);
  });
});
