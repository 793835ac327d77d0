import { describe, expect, it } from "vitest";
import { plain } from "../testing/plain.ts";
import type { Quantity } from "./quantity.ts";
import { largest, smallest, step, total } from "./step.ts";

const unknown = (symbol: string, path = symbol): Quantity => ({
  kind: "unknown",
  symbol,
  label: symbol,
  unit: "",
  missing: [{ path, label: symbol, what: "fact" }],
});
const named = { symbol: "x", label: "x", unit: "", clause: "test" };

describe("step", () => {
  const add = (a: Quantity, b: Quantity) =>
    step({ ...named, formula: "a + b", inputs: { a, b }, compute: ({ a, b }) => a + b });

  it("works a number out and keeps what it came from", () => {
    const a = plain("a", 2);
    expect(add(a, plain("b", 3))).toMatchObject({ kind: "step", value: 5, formula: "a + b", inputs: { a } });
  });
  it("is unknown when any input is, and says what is missing, each thing once", () => {
    const result = add(add(unknown("a"), unknown("a")), unknown("b"));
    expect(result).toMatchObject({ kind: "unknown", missing: [{ path: "a" }, { path: "b" }] });
  });
  it("is unknown when the result cannot be, and asks for the facts behind it", () => {
    const ratio = step({
      ...named,
      formula: "a / b",
      inputs: { a: plain("a", 1), b: plain("b", 0) },
      compute: ({ a, b }) => a / b,
    });
    expect(ratio).toMatchObject({
      kind: "unknown",
      missing: [
        { path: "test.a" },
        { path: "test.b", label: "b, which cannot be right at 0 if all else is" },
      ],
    });
  });
});

describe("total, largest and smallest", () => {
  const terms = [plain("L", 3), plain("L", 1), plain("M", 2)] as const;
  it("number the terms that share a symbol", () => {
    expect(total(named, terms)).toMatchObject({ value: 6, formula: "L_1 + L_2 + M" });
    expect(largest(named, terms)).toMatchObject({ value: 3, formula: "max(L_1, L_2, M)" });
    expect(smallest(named, terms)).toMatchObject({ value: 1, formula: "min(L_1, L_2, M)" });
  });
  it("the sum of nothing is zero, and is known", () => {
    expect(total(named, [])).toMatchObject({ kind: "step", value: 0, formula: "0" });
  });
  it("an unknown term is not a zero", () => {
    expect(total(named, [plain("L", 3), unknown("M")])).toMatchObject({
      kind: "unknown",
      missing: [{ path: "M" }],
    });
  });
});
