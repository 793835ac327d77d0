import type { LocatedFact } from "../job/index.ts";
import type { Need } from "./work-step.ts";

/** What only eyes on site can see. */
export const onSite = (words: string): Need => ({ words, state: "on-site", path: null });

export const met = (words: string): Need => ({ words, state: "met", path: null });

export const isTrue = (words: string, fact: LocatedFact<boolean>): Need => ({
  words,
  state: fact.state !== "known" ? "unknown" : fact.value ? "met" : "broken",
  path: fact.path,
});

export const isRecorded = (words: string, fact: LocatedFact<unknown>): Need => ({
  words,
  state: fact.state === "known" ? "met" : "unknown",
  path: fact.path,
});
