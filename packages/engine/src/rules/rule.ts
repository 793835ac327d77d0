import type { Job, LocatedFact } from "../job/index.ts";
import { choice } from "../job/index.ts";
import type { Rounding } from "../quantities/index.ts";
import { type Check, type Choice, decide, type Missing, type Quantity } from "../worked/index.ts";
import type { Study } from "./study.ts";

export type Verdict = "pass" | "fail" | "cannot-tell" | "not-applicable";

/** Where in the job's course a finding matters. */
export const STAGES = ["survey", "decide", "size", "fit", "prove", "hand-over"] as const;
export type Stage = (typeof STAGES)[number];

/**
 * What a finding asks of somebody besides its verdict.
 *
 * `caution`: go on, but know this. `refer`: a competent designer decides. `contact-operator` and
 * `apply-first`: the network operator answers before anything is connected. `notify-after`: tell the
 * operator afterwards. `stop`: make safe first.
 */
export type Action = "caution" | "refer" | "notify-after" | "apply-first" | "contact-operator" | "stop";

export type Jurisdiction = Job["site"]["jurisdiction"];
export const GREAT_BRITAIN: readonly Jurisdiction[] = ["england", "wales", "scotland"];
export const UNITED_KINGDOM: readonly Jurisdiction[] = [...GREAT_BRITAIN, "northern-ireland"];

/** What a finding is about: a node or cable of the tree, or the site as a whole. */
export interface Subject {
  readonly id: string;
  readonly label: string;
  /** Place in the job to show or to fill in. */
  readonly path: string;
}

/** A number in a message: how many digits, and which way it may be rounded. */
export interface Shown {
  readonly value: number;
  readonly unit: string;
  readonly decimals: number;
  readonly rounding: Rounding;
}
export type Datum = Shown | string;

/** What one rule says of one subject. Data only: no sentences, no colours. */
export interface Judgement<M extends string = string> {
  readonly subject: Subject;
  readonly verdict: Verdict;
  readonly message: M;
  /** Values the message is filled with. */
  readonly data: Readonly<Record<string, Datum>>;
  readonly action?: Action;
  /** The comparison that decided, when one did. */
  readonly check?: Check;
  /** Other quantities worth showing. */
  readonly workings?: readonly Quantity[];
  /** Facts that decided without being numbers in the check. */
  readonly facts?: readonly Choice[];
  readonly missing?: readonly Missing[];
  /** Fact whose turning point is shown: the one a person could change or measure. */
  readonly turnsOn?: LocatedFact<number>;
}

/** A rule is a value: identity, messages and one pure function. Where it is printed is knowledge. */
export interface Rule<M extends string = string> {
  /** Kebab-case, permanent; also the name of its file, its test, its page and its clause. */
  readonly id: string;
  readonly title: string;
  readonly stage: Stage;
  readonly jurisdictions: readonly Jurisdiction[];
  /** Sentences with {places} for the data. They tell the reader what to do next. */
  readonly messages: Readonly<Record<M, string>>;
  readonly judge: (study: Study) => readonly Judgement<M>[];
}

/** Keeps a rule's message names known to the compiler. */
export const rule = <M extends string>(value: Rule<M>): Rule<M> => value;

/** A number for a message, rounded when it is shown: up for a demand, down for a limit. */
export const shown = (
  value: number,
  unit: string,
  decimals: number,
  rounding: Rounding = "nearest",
): Shown => ({
  value,
  unit,
  decimals,
  rounding,
});

/** The value of a quantity for a message; a dash while it is unknown. */
export const shownOf = (quantity: Quantity, decimals: number, rounding: Rounding = "nearest"): Datum =>
  quantity.kind === "unknown" ? "–" : shown(quantity.value, quantity.unit, decimals, rounding);

/** A judgement from a comparison: holds, broken, or something is missing. */
export function compare<M extends string>(spec: {
  readonly subject: Subject;
  readonly check: Check;
  readonly holds: M | Outcome<M>;
  readonly broken: M | Outcome<M>;
  readonly unknown: M;
  readonly data?: Readonly<Record<string, Datum>>;
  readonly facts?: readonly Choice[];
  readonly workings?: readonly Quantity[];
  readonly turnsOn?: LocatedFact<number>;
}): Judgement<M> {
  const { subject, check, data = {} } = spec;
  const common = {
    subject,
    data,
    check,
    ...(spec.facts && { facts: spec.facts }),
    ...(spec.workings && { workings: spec.workings }),
  };
  const result = decide(check);
  if (result.state === "unknown") {
    return { ...common, verdict: "cannot-tell", message: spec.unknown, missing: result.missing };
  }
  const outcome = result.state === "holds" ? spec.holds : spec.broken;
  const verdict = result.state === "holds" ? "pass" : "fail";
  const turns = spec.turnsOn && { turnsOn: spec.turnsOn };
  return typeof outcome === "string"
    ? { ...common, verdict, message: outcome, ...turns }
    : { ...common, verdict, ...outcome, ...turns };
}

export interface Outcome<M extends string> {
  readonly message: M;
  readonly verdict?: Verdict;
  readonly action?: Action;
  readonly missing?: readonly Missing[];
}

/** The rule does not touch this job. */
export const notApplicable = <M extends string>(
  subject: Subject,
  message: M,
  facts: readonly Choice[] = [],
): Judgement<M> => ({
  subject,
  verdict: "not-applicable",
  message,
  data: {},
  facts,
});

/** Facts are missing. */
export const cannotTell = <M extends string>(
  subject: Subject,
  message: M,
  missing: readonly Missing[],
  more: Partial<Judgement<M>> = {},
): Judgement<M> => ({ data: {}, ...more, subject, verdict: "cannot-tell", message, missing });

/** Known facts as choices, for the record of what a judgement rests on. */
export const factsOf = (...facts: readonly LocatedFact<unknown>[]): readonly Choice[] =>
  facts.flatMap((fact) =>
    fact.state === "known" && ["string", "number", "boolean"].includes(typeof fact.value)
      ? [choice(fact as Extract<LocatedFact<string>, { state: "known" }>)]
      : fact.state === "known" && Array.isArray(fact.value)
        ? [
            choice({ ...fact, value: fact.value.join(", ") || "none" } as Extract<
              LocatedFact<string>,
              { state: "known" }
            >),
          ]
        : [],
  );
