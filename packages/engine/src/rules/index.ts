export * from "./assess.ts";
export * from "./finding.ts";
export { GB_RULES } from "./gb/index.ts";
export { tailsOf } from "./gb/tails-of.ts";
export * from "./knowledge.ts";
export * from "./missing-facts.ts";
export * from "./options.ts";
export {
  type Action,
  type Datum,
  type Judgement,
  type Jurisdiction,
  type Rule,
  type Shown,
  STAGES,
  type Stage,
  type Subject,
  type Verdict,
} from "./rule.ts";
export * from "./study.ts";
export * from "./time-to-fallback.ts";
export * from "./trace-bounds-of.ts";
