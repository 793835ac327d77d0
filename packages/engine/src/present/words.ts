import type { Action, OperatorRoute, OptionKind, Stage, Verdict } from "../rules/index.ts";
import type { Basis, Standing } from "../worked/index.ts";

/** A verdict in a word and a mark that can be told apart without colour. */
export const VERDICTS: Readonly<Record<Verdict, { readonly word: string; readonly mark: string }>> = {
  pass: { word: "passes", mark: "✓" },
  fail: { word: "fails", mark: "✗" },
  "cannot-tell": { word: "cannot be told", mark: "?" },
  "not-applicable": { word: "does not apply", mark: "–" },
};

export const STAGE_TITLES: Readonly<Record<Stage, string>> = {
  survey: "Survey",
  decide: "Decide",
  size: "Size",
  fit: "Fit",
  prove: "Prove",
  "hand-over": "Hand over",
};

export const ACTIONS: Readonly<Record<Action, string>> = {
  caution: "Know this",
  refer: "A designer decides",
  "notify-after": "Notify the operator afterwards",
  "apply-first": "Apply to the operator first",
  "contact-operator": "Call the operator",
  stop: "Stop",
};

export const OPTIONS: Readonly<Record<OptionKind, string>> = {
  "full-rate": "Full rate, unmanaged",
  "lower-rate": "Lower rate, unmanaged",
  managed: "Full rate, managed",
  "larger-supply": "Larger supply",
};

export const ROUTES: Readonly<Record<OperatorRoute, string>> = {
  "notify-after": "notify afterwards",
  "apply-first": "apply first",
  "not-possible": "not possible",
  "cannot-tell": "cannot be told yet",
  "not-needed": "not needed",
};

export const BASIS_WORDS: Readonly<Record<Basis, string>> = {
  measured: "measured",
  declared: "declared",
  "read-from-label": "read from the label",
  "seen-on-site": "seen on site",
  assumed: "assumed",
};

export const STANDING_WORDS: Readonly<Record<Standing, string>> = {
  seen: "seen in the source or a quotation of it",
  "second-hand": "seen second-hand only",
  recalled: "recalled, not yet checked",
  practice: "common practice",
  own: "own method",
};

/** Ends every document. */
export const DEFERENCE =
  "This is a working aid for a competent person. The wiring rules in force, the network operator, the makers' instructions and the licensed person on site go before it. It says which check passed, against what; it certifies nothing.";
