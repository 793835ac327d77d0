import type { StepQuantity } from "../worked/index.ts";
import { inWorking } from "./format.ts";

/** Names of a formula that are functions or constants and not inputs. */
const FUNCTIONS: Readonly<Record<string, string>> = { sqrt: "√", log: "ln", pi: "π" };

/** A formula as it is printed: the same arithmetic in the signs of the trade. */
export const printedFormula = (formula: string): string =>
  printed(formula, (name) => FUNCTIONS[name] ?? name);

/** The formula with its values put in. */
export function substitutedFormula({ formula, inputs }: StepQuantity): string {
  return printed(formula, (name) => {
    const input = inputs[name];
    if (input === undefined) return FUNCTIONS[name] ?? name;
    const digits = inWorking(input.value);
    return input.value < 0 ? `(${digits})` : digits;
  });
}

function printed(formula: string, nameOf: (name: string) => string): string {
  const signs = conditional(formula)
    .replaceAll("<=", "≤")
    .replaceAll(">=", "≥")
    .replace(/\s*\*\s*/g, " × ")
    .replace(/\^2\b/g, "²")
    .replace(/(?<![\d\w])-\s/g, "− ");
  return signs.replace(/(?<![\d.])\p{L}[\p{L}\p{Nd}_]*/gu, (name) => (WORDS.has(name) ? name : nameOf(name)));
}

const WORDS = new Set(["if", "otherwise"]);

/** `a ? b : c` reads: b if a, otherwise c. */
function conditional(formula: string): string {
  const mark = formula.indexOf(" ? ");
  if (mark < 0) return formula;
  let depth = 0;
  for (let at = mark; at < formula.length; at++) {
    if (formula[at] === "(") depth++;
    else if (formula[at] === ")") depth--;
    else if (depth === 0 && formula.startsWith(" : ", at)) {
      const [test, yes, no] = [formula.slice(0, mark), formula.slice(mark + 3, at), formula.slice(at + 3)];
      return `${yes} if ${test}, otherwise ${conditional(unwrapped(no))}`;
    }
  }
  return formula;
}

const unwrapped = (text: string): string =>
  /^\(.*\)$/.test(text) && text.includes(" ? ") ? text.slice(1, -1) : text;
