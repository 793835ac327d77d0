import { citationFor, clauseOf, type Study } from "../rules/index.ts";
import type { Choice, Citation, Known, Quantity, StepQuantity } from "../worked/index.ts";
import { inWorking } from "./format.ts";
import { printedFormula, substitutedFormula } from "./formula-text.ts";
import { BASIS_WORDS, STANDING_WORDS } from "./words.ts";

/** One line of a working and what it was worked from. */
export interface WorkingView {
  /** `Zs = 0.66378 Ω`. */
  readonly equation: string;
  readonly label: string;
  /** `Ze + R1R2 = 0.35 + 0.31378`, for a step. */
  readonly formula: string | null;
  /** Facts that chose the row of a table, in one line. */
  readonly chosenBy: string | null;
  /** Where it comes from: the clause of a step, the source of a figure, the basis of a fact. Empty where the line above says it. */
  readonly origin: string;
  /** The same step stands further up in full; its inputs are not shown again. */
  readonly isRepeated: boolean;
  readonly inputs: readonly WorkingView[];
}

/** Workings as lines to show, in order; a step that stands in an earlier line is not opened twice. */
export function workingViews(quantities: readonly Quantity[], study: Study): readonly WorkingView[] {
  const shown = new Set<string>();
  return quantities.map((quantity) =>
    quantity.kind === "unknown"
      ? unknownView(quantity)
      : knownView(quantity, { study, shown, clauseAbove: "" }),
  );
}

interface Context {
  readonly study: Study;
  /** Steps already shown in full. */
  readonly shown: Set<string>;
  readonly clauseAbove: string;
}

const unknownView = (quantity: Extract<Quantity, { kind: "unknown" }>): WorkingView => ({
  equation: `${quantity.symbol} = ?`,
  label: quantity.label,
  formula: null,
  chosenBy: null,
  origin: `not known: ${quantity.missing.map((item) => item.label).join("; ")}`,
  isRepeated: false,
  inputs: [],
});

function knownView(quantity: Known, context: Context): WorkingView {
  const { study } = context;
  const line = {
    equation: `${quantity.symbol} = ${inWorking(quantity.value, quantity.unit)}`,
    label: quantity.label,
    formula: null,
    chosenBy: null,
    isRepeated: false,
    inputs: [],
  };
  switch (quantity.kind) {
    case "fact":
      return { ...line, origin: `${BASIS_WORDS[quantity.basis]}${dated(quantity.onIso)} · ${quantity.path}` };
    case "figure": {
      const choices = (quantity.chosenBy ?? []).map(choiceText);
      return {
        ...line,
        origin: citationText(quantity.citation, study),
        chosenBy: choices.length === 0 ? null : choices.join("; "),
      };
    }
    case "step":
      return { ...line, ...stepParts(quantity, context) };
  }
}

function stepParts(
  step: StepQuantity,
  { study, shown, clauseAbove }: Context,
): Pick<WorkingView, "formula" | "origin" | "isRepeated" | "inputs"> {
  const key = `${step.symbol} ${step.label} ${step.formula} ${step.value}`;
  const citation =
    step.clause === clauseAbove ? undefined : citationFor(clauseOf(step.clause, study.knowledge), study);
  const origin = citation === undefined ? "" : citationText(citation, study);
  const [general, substituted] = [printedFormula(step.formula), substitutedFormula(step)];
  const inputs = Object.entries(step.inputs);
  const formula = inputs.length === 0 ? general : `${general} = ${substituted}`;
  if (shown.has(key)) return { formula, origin: "", isRepeated: true, inputs: [] };
  shown.add(key);
  return {
    formula,
    origin,
    isRepeated: false,
    inputs: inputs.map(([symbol, input]) => {
      const view = knownView(input, { study, shown, clauseAbove: step.clause });
      return symbol === input.symbol
        ? view
        : { ...view, equation: `${symbol} = ${inWorking(input.value, input.unit)}` };
    }),
  };
}

const dated = (onIso: string | null): string => (onIso === null ? "" : ` on ${onIso}`);

/** A fact that chose a row: what it is, its value, and how it is known. */
function choiceText({ label, value, unit, basis }: Choice): string {
  const words = typeof value === "string" ? value.replaceAll("-", " ") : `${value}${unit && `\u00a0${unit}`}`;
  return `${label} ${words} (${BASIS_WORDS[basis]})`;
}

/** A citation in a line: source, place, how far checked, and what to know before relying on it. */
export function citationText(citation: Citation, study: Pick<Study, "knowledge">): string {
  const nameOf = (id: string) => study.knowledge.sources.find((source) => source.id === id);
  const source = nameOf(citation.source);
  const seenAt = citation.seenAt === undefined ? undefined : nameOf(citation.seenAt);
  const title = source === undefined ? citation.source : shortTitle(source.title, source.edition);
  const where = seenAt === undefined ? "" : ` (read in: ${seenAt.title})`;
  return `${title}, ${citation.at}${where} · ${STANDING_WORDS[citation.standing]}${citation.remark === undefined ? "" : `. ${citation.remark}`}`;
}

/** The number of a standard says more than its title. */
function shortTitle(title: string, edition: string): string {
  const number = /^(BS(?: EN)? [\d-]+|IEC [\d-]+|SI \d+\/\d+|Engineering Recommendation G\d+)/.exec(
    edition,
  )?.[1];
  return number ?? title;
}
