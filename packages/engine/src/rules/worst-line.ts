import type { LineDemand } from "../demand/index.ts";
import { isKnown, numberOf, type Quantity } from "../worked/index.ts";

/**
 * The line with the largest of a quantity; the first whose quantity is unknown when any is, because an
 * unknown line could be the worst.
 */
export function worstLine(
  demand: readonly LineDemand[],
  of: (line: LineDemand) => Quantity,
): { readonly line: LineDemand; readonly quantity: Quantity } {
  const all = demand.map((line) => ({ line, quantity: of(line) }));
  const unknown = all.find(({ quantity }) => !isKnown(quantity));
  if (unknown !== undefined) return unknown;
  return all.reduce((worst, item) => (numberOf(item.quantity) > numberOf(worst.quantity) ? item : worst));
}

/** Demand an operator is told when only one figure is asked: managed where a load manager holds it. */
export const managedOrAll = (line: LineDemand): Quantity => (line.managed ?? line.unmanaged).high;
