import { citationFor, clauseOf, type Study } from "../rules/index.ts";
import type { Choice, Citation, Known, Quantity } from "../worked/index.ts";
import { inWorking } from "./format.ts";
import { printedFormula, substitutedFormula } from "./formula-text.ts";
import { BASIS_WORDS, STANDING_WORDS } from "./words.ts";

/** One line of a working and what it was worked from. */
export interface WorkingView {
  /** `Zs`, with its value: `Zs = 0.66378 Ω`. */
  readonly equation: string;
  readonly label: string;
  /** `Ze + R1R2 = 0.35 + 0.31378`, for a step. */
  readonly formula: string | null;
  /** Where it comes from: the clause of a step, the source of a figure, the basis of a fact. */
  readonly origin: string;
  readonly inputs: readonly WorkingView[];
}

/** The working of a quantity as lines to show; an unknown says what is missing. */
export function workingView(quantity: Quantity, study: Study): WorkingView {
  if (quantity.kind === "unknown") {
    return {
      equation: `${quantity.symbol} = ?`,
      label: quantity.label,
      formula: null,
      origin: `not known: ${quantity.missing.map((item) => item.label).join("; ")}`,
      inputs: [],
    };
  }
  return knownView(quantity, study);
}

function knownView(quantity: Known, study: Study): WorkingView {
  const common = {
    equation: `${quantity.symbol} = ${inWorking(quantity.value, quantity.unit)}`,
    label: quantity.label,
  };
  switch (quantity.kind) {
    case "fact":
      return { ...common, formula: null, origin: factOrigin(quantity), inputs: [] };
    case "figure": {
      const inputs = (quantity.chosenBy ?? []).map(choiceView);
      return { ...common, formula: null, origin: citationText(quantity.citation, study), inputs };
    }
    case "step": {
      const citation = citationFor(clauseOf(quantity.clause, study.knowledge), study);
      const inputs = Object.entries(quantity.inputs).map(([symbol, input]) => {
        const view = knownView(input, study);
        return symbol === input.symbol
          ? view
          : { ...view, equation: `${symbol} = ${inWorking(input.value, input.unit)}` };
      });
      const [general, substituted] = [printedFormula(quantity.formula), substitutedFormula(quantity)];
      return {
        ...common,
        formula: inputs.length === 0 ? general : `${general} = ${substituted}`,
        origin: citation === undefined ? "" : citationText(citation, study),
        inputs,
      };
    }
  }
}

const choiceView = (choice: Choice): WorkingView => ({
  equation: `${choice.value}${choice.unit && `\u00a0${choice.unit}`}`,
  label: choice.label,
  formula: null,
  origin: factOrigin(choice),
  inputs: [],
});

const factOrigin = ({
  basis,
  onIso,
  path,
}: {
  basis: Choice["basis"];
  onIso: string | null;
  path: string;
}): string => `${BASIS_WORDS[basis]}${onIso === null ? "" : ` on ${onIso}`} · ${path}`;

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
