import { describe, expect, it } from "vitest";
import type { Fault } from "./fault.ts";
import { simplest } from "./simplest.ts";

const A: Fault = { id: "F01", channels: [1] };
const B: Fault = { id: "F13", channels: [1] };
const C: Fault = { id: "F16" };
const member = (...faults: readonly Fault[]) => ({ faults: faults.map((fault) => ({ fault })) });

describe("simplest", () => {
  it("drops what is another member with a fault more", () => {
    const [a, ac, bc, b] = [member(A), member(A, C), member(B, C), member(B)];
    expect(simplest([a, ac, bc, b])).toEqual([a, b]);
  });

  it("keeps pairs of which neither fault stands alone in the class", () => {
    const members = [member(A), member(B, C)];
    expect(simplest(members)).toEqual(members);
  });

  it("keeps the first whatever stands after it, and every fault beside a sound chain", () => {
    const [pair, a] = [member(A, C), member(A)];
    expect(simplest([pair, a])).toEqual([pair, a]);
    const sound = [member(), member(A), member(B)];
    expect(simplest(sound)).toEqual(sound);
  });

  it("tells faults of one name on different channels apart", () => {
    const members = [member(A), member({ id: "F01", channels: [2] }, C)];
    expect(simplest(members)).toEqual(members);
  });
});
