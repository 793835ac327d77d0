export type Tone = "pass" | "fail" | "unknown";

/** A sentence on what a run showed, and what is to be thought of it. */
export interface ToldSentence {
  readonly tone: Tone | "none";
  readonly text: string;
}
