import { describe, expect, it } from "vitest";
import { plain } from "../testing/plain.ts";
import { decide } from "./check.ts";

const state = (left: number, relation: "<=" | ">=", right: number) =>
  decide({ left: plain("l", left), relation, right: plain("r", right) }).state;

describe("decide", () => {
  it.each([
    [59.9, "<=", 60, "holds"],
    [60, "<=", 60, "holds"],
    [28.8 + 31.2, "<=", 60, "holds"],
    [0.1 + 0.2, "<=", 0.3, "holds"], // 0.30000000000000004: the last binary digit decides nothing
    [60.1, "<=", 60, "broken"],
    [60.000001, "<=", 60, "broken"],
    [10, ">=", 10, "holds"],
    [9.9999, ">=", 10, "broken"],
  ] as const)("%d %s %d: %s", (left, relation, right, expected) =>
    expect(state(left, relation, right)).toBe(expected),
  );

  it("decides nothing while a side is unknown, and gathers what is missing from both", () => {
    const lacking = (path: string) =>
      ({
        kind: "unknown",
        symbol: path,
        label: path,
        unit: "",
        missing: [{ path, label: path, what: "fact" }],
      }) as const;
    expect(decide({ left: lacking("a"), relation: "<=", right: lacking("b") })).toEqual({
      state: "unknown",
      missing: [expect.objectContaining({ path: "a" }), expect.objectContaining({ path: "b" })],
    });
  });
});
