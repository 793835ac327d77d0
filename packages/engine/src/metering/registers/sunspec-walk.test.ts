import { GREAT_BRITAIN } from "@underfuse/knowledge";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type SunspecWalk, walkSunspec } from "./sunspec-walk.ts";

const BASES = GREAT_BRITAIN.metering.sunspec.bases.addresses;
const MARKER = [0x5375, 0x6e53];

/** Registers of a device: marker, blocks of the lengths given, end. */
const device = (
  base: number,
  blocks: readonly (readonly [number, number])[],
  end: readonly number[] = [0xffff, 0],
) =>
  new Map(
    [
      ...MARKER,
      ...blocks.flatMap(([model, length]) => [model, length, ...Array(length).fill(7)]),
      ...end,
    ].map((register, index) => [base + index, register]),
  );

/** Walks as a program on the line would, and counts its requests. */
function walked(all: ReadonlyMap<number, number>): SunspecWalk & { readonly requests: number } {
  const read = new Map<number, number>();
  const refused = new Set<number>();
  for (let requests = 0; ; requests++) {
    const walk = walkSunspec(read, BASES, refused);
    if (walk.next === null) return { ...walk, requests };
    if (requests > 500) throw new Error("it never ends");
    const { address, count } = walk.next;
    const got = Array.from({ length: count }, (_, index) => all.get(address + index));
    if (got.includes(undefined)) refused.add(address);
    for (const [index, register] of got.entries())
      if (register !== undefined) read.set(address + index, register);
  }
}

describe(walkSunspec, () => {
  it("tries the bases in order", () => {
    expect(BASES).toEqual([40_000, 0, 50_000]);
    for (const base of BASES) expect(walked(device(base, [[1, 66]])).base).toBe(base);
    expect(walkSunspec(new Map(), BASES).next).toEqual({ address: 40_000, count: 2 });
  });
  it.each([66, 65])("finds the meter behind a common block of %d registers", (length) => {
    const { blocks, end, requests } = walked(
      device(40_000, [
        [1, length],
        [203, 105],
      ]),
    );
    expect(blocks).toEqual([
      { model: 1, address: 40_002, length },
      { model: 203, address: 40_004 + length, length: 105 },
    ]);
    expect(end).toBe("end-marker");
    expect(requests).toBe(6);
  });
  it("does not need a length behind the end marker", () => {
    expect(walked(device(0, [[1, 66]], [0xffff])).end).toBe("end-marker");
  });
  it("keeps what it found where the rest is refused", () => {
    const { blocks, end } = walked(device(0, [[1, 66]], []));
    expect([blocks.length, end]).toEqual([1, "refused"]);
  });
  it("walks past models it does not know, and past those without registers", () => {
    const { blocks } = walked(
      device(40_000, [
        [1, 66],
        [64_999, 0],
        [213, 124],
      ]),
    );
    expect(blocks.map(({ model }) => model)).toEqual([1, 64_999, 213]);
  });
  it("no marker, no blocks", () => {
    expect(walked(new Map())).toMatchObject({ base: null, blocks: [], end: "no-marker" });
    expect(walked(new Map(Array.from({ length: 65_536 }, (_, at) => [at, 0])))).toMatchObject({
      end: "no-marker",
    });
  });
  it("a length that leads astray is told", () => {
    expect(walked(device(40_000, [[1, 66]], [0, 0])).end).toBe("broken");
    const astray = walked(device(50_000, [[1, 66]], [203, 40_000]));
    expect(astray.end).toBe("broken");
    expect(astray.blocks.map(({ model }) => model)).toEqual([1]);
  });
  it("ends, whatever the registers hold", () => {
    const everywhere = new Map(Array.from({ length: 65_536 }, (_, at) => [at, 1]));
    for (const [address, register] of device(0, [])) everywhere.set(address, register);
    everywhere.set(2, 5).set(3, 0);
    expect(walked(everywhere)).toMatchObject({ end: "broken", next: null });
    const register = fc.oneof(fc.integer({ min: 0, max: 0xffff }), fc.double());
    fc.assert(
      fc.property(fc.array(fc.tuple(fc.nat(300), register)), (pairs) => {
        const all = new Map<number, number>([...pairs, [0, 0x5375], [1, 0x6e53]]);
        expect(walked(all).next).toBeNull();
      }),
    );
  });
});
