import { evaluate } from "mathjs";
import type { Known } from "../worked/index.ts";

/** One step whose formula, read by the independent evaluator, does not give the value shown. */
export interface Disagreement {
  readonly symbol: string;
  readonly formula: string;
  readonly shown: number;
  readonly evaluated: number;
}

/**
 * Evaluates every step under a quantity from its formula text and its inputs' values, with an evaluator that
 * shares nothing with the engine.
 *
 * @returns The formulas met, and every step that disagrees by more than 1e-9 of its value.
 */
export function reEvaluate(quantities: readonly Known[]): {
  readonly formulas: readonly string[];
  readonly disagreements: readonly Disagreement[];
} {
  const formulas: string[] = [];
  const disagreements: Disagreement[] = [];
  const walked = new Set<Known>();
  const walk = (node: Known): void => {
    if (node.kind !== "step" || walked.has(node)) return;
    walked.add(node);
    formulas.push(node.formula);
    const scope = Object.fromEntries(
      Object.entries(node.inputs).map(([symbol, input]) => [symbol, input.value]),
    );
    const evaluated = Number(evaluate(node.formula, scope));
    const tolerance = 1e-9 * Math.max(1, Math.abs(node.value));
    if (!(Math.abs(evaluated - node.value) <= tolerance)) {
      disagreements.push({ symbol: node.symbol, formula: node.formula, shown: node.value, evaluated });
    }
    for (const input of Object.values(node.inputs)) walk(input);
  };
  for (const quantity of quantities) walk(quantity);
  return { formulas, disagreements };
}
