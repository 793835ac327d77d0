import {
  type Choice,
  type Citation,
  decide,
  type Grounds,
  groundsOf,
  type Known,
  type Leaf,
  type TurningPoint,
  turningPoint,
} from "../worked/index.ts";
import type { Clause, Knowledge } from "./knowledge.ts";
import type { Judgement, Rule, Stage } from "./rule.ts";
import type { Study } from "./study.ts";

/** A figure or a printed clause that a finding rests on and that nobody has read in its source yet. */
export interface Unchecked {
  readonly label: string;
  readonly citation: Citation;
}

/** What one rule says of one subject, with everything a reader needs to check it. */
export interface Finding extends Judgement {
  /** `rule/subject`, numbered where one rule says two things of one subject. */
  readonly id: string;
  readonly ruleId: string;
  readonly title: string;
  readonly stage: Stage;
  /** The message as a template; `data` fills it. */
  readonly template: string;
  readonly clause: Clause;
  /** Facts that were assumed and not measured, declared or seen. */
  readonly assumed: readonly Choice[];
  readonly unchecked: readonly Unchecked[];
  readonly turningPoint: TurningPoint | null;
}

/** Runs one rule on a job. */
export function findingsOf(rule: Rule, study: Study): readonly Finding[] {
  const { knowledge } = study;
  const said = new Map<string, number>();
  return rule.judge(study).map((judgement) => {
    const count = (said.get(judgement.subject.id) ?? 0) + 1;
    said.set(judgement.subject.id, count);
    const grounds = groundsOf(quantitiesOf(judgement));
    const clause = clauseOf(rule.id, knowledge);
    return {
      ...judgement,
      id: `${rule.id}/${judgement.subject.id}${count === 1 ? "" : `.${count}`}`,
      ruleId: rule.id,
      title: rule.title,
      stage: rule.stage,
      template: rule.messages[judgement.message] ?? judgement.message,
      clause,
      assumed: assumedFacts(judgement, grounds.leaves),
      unchecked: uncheckedFigures(grounds, clause, study),
      turningPoint: turningPointOf(judgement, grounds.leaves),
    };
  });
}

/** Where a rule or a step is printed; every rule and every clause of a step has an entry, a test sees to it. */
export const clauseOf = (id: string, knowledge: Knowledge): Clause =>
  knowledge.clauses[id] ?? { title: id, printed: [] };

/** The citation that holds for an edition of the wiring rules: the newest not newer than it. */
export function citationFor(clause: Clause, study: Pick<Study, "job" | "knowledge">): Citation | undefined {
  const edition = study.job.work.wiringRules;
  const order = study.knowledge.editions.map((item) => item.id);
  const limit = edition.state === "known" ? order.indexOf(edition.value) : order.length - 1;
  return clause.printed.findLast((entry) => entry.edition === null || order.indexOf(entry.edition) <= limit)
    ?.citation;
}

/** The sides of the check and the other workings, those that are known. */
export const quantitiesOf = (judgement: Judgement): readonly Known[] =>
  [judgement.check?.left, judgement.check?.right, ...(judgement.workings ?? [])].filter(
    (quantity): quantity is Known => quantity !== undefined && quantity.kind !== "unknown",
  );

function assumedFacts(judgement: Judgement, leaves: readonly Leaf[]): readonly Choice[] {
  const assumed = new Map<string, Choice>();
  const note = (fact: Choice): void => {
    if (fact.basis === "assumed" && !assumed.has(fact.path)) assumed.set(fact.path, fact);
  };
  for (const leaf of leaves) {
    if (leaf.kind === "fact") note(leaf);
    else leaf.chosenBy?.forEach(note);
  }
  judgement.facts?.forEach(note);
  return [...assumed.values()];
}

function uncheckedFigures({ leaves, clauses }: Grounds, clause: Clause, study: Study): readonly Unchecked[] {
  const unchecked = new Map<string, Unchecked>();
  const note = (label: string, citation: Citation | undefined): void => {
    if (citation === undefined || citation.standing === "seen") return;
    unchecked.set(`${label} ${citation.at}`, { label, citation });
  };
  note(clause.title, citationFor(clause, study));
  for (const leaf of leaves) if (leaf.kind === "figure") note(leaf.label, leaf.citation);
  for (const id of clauses) {
    const step = clauseOf(id, study.knowledge);
    note(step.title, citationFor(step, study));
  }
  return [...unchecked.values()];
}

function turningPointOf(
  { check, turnsOn, verdict }: Judgement,
  leaves: readonly Leaf[],
): TurningPoint | null {
  if (check === undefined || turnsOn === undefined || verdict === "not-applicable") return null;
  if (decide(check).state === "unknown") return null;
  const fact = leaves.find((leaf) => leaf.kind === "fact" && leaf.path === turnsOn.path);
  return fact?.kind === "fact" ? turningPoint(check, fact) : null;
}
