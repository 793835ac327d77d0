import type { Known } from "../worked/index.ts";

/** A bare number as a quantity, for tests of formulas. */
export const plain = (symbol: string, value: number, unit = ""): Known => ({
  kind: "fact",
  symbol,
  label: symbol,
  unit,
  value,
  path: `test.${symbol}`,
  basis: "measured",
  onIso: null,
});

/** The number of a quantity that a test knows to be known. */
export function knownValue(quantity: { kind: string; value?: number; missing?: unknown }): number {
  if (quantity.kind === "unknown" || quantity.value === undefined) {
    throw new Error(`unknown: ${JSON.stringify(quantity.missing)}`);
  }
  return quantity.value;
}
