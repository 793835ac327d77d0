import { describe, expect, it } from "vitest";
import { classExcursions } from "./excursion-states.ts";

const times = { usualS: 15, longestS: 60 };
const at = (startH: number, lengthS: number) => ({ startS: startH * 3600, lengthS });
const states = (...excursions: readonly ReturnType<typeof at>[]) =>
  classExcursions(excursions, times).map(({ state }) => state);

describe("classExcursions", () => {
  // 15 s and 60 s: [operator-limitation-guidance]; the states as recalled.
  it("takes 10 s as normal, 40 s as an event, 70 s as a lock", () =>
    expect(states(at(0, 10), at(1, 40), at(30, 70))).toEqual([1, 2, 3]));
  it("is normal at exactly the usual time, and an event at exactly the longest", () =>
    expect(states(at(0, 15), at(30, 60), at(60, 60.1))).toEqual([1, 2, 3]));
  // Third event within 24 h locks for 4 h: quoted at second hand.
  it("locks for four hours with the third event within 24 h", () =>
    expect(classExcursions([at(0, 30), at(8, 30), at(20, 30)], times)[2]).toEqual({
      ...at(20, 30),
      state: 3,
      lockedUntilS: 20 * 3600 + 30 + 4 * 3600,
    }));
  it("does not lock when the first of three lies a day back", () =>
    expect(states(at(0, 30), at(8, 30), at(24, 30))).toEqual([2, 2, 2]));
  it("counts afresh after a lock", () =>
    expect(states(at(0, 30), at(1, 30), at(2, 30), at(7, 30), at(8, 30))).toEqual([2, 2, 3, 2, 2]));
  it("does not count what was normal", () =>
    expect(states(at(0, 30), at(1, 14), at(2, 14), at(3, 30))).toEqual([2, 1, 1, 2]));
});
