import type { Doubt } from "../through-time/index.ts";

const DOUBT_WORDS: Readonly<Record<Exclude<Doubt, "means">, string>> = {
  drawn: "the building was drawn, at least in part",
  lacking: "the recording lacks loads of the job",
  gaps: "too much of the time was not recorded",
  shared: "one value was shared equally over the lines",
  lessened: "a generator gave part of what the building drew, and gives less on a dull day",
  unsure: "too many readings are estimated or questionable",
  short: "less than a week was recorded",
  "no-manager": "the load manager is imagined",
  misplaced: "a transformer does not see all that the main fuse carries",
};

/** Why nothing about the supply passes, in one sentence; none where it can. What means hide is told by itself. */
export function doubtWords(doubts: readonly Doubt[]): readonly string[] {
  const why = doubts.flatMap((doubt) => (doubt === "means" ? [] : [DOUBT_WORDS[doubt]]));
  return why.length === 0 ? [] : [`Nothing about the supply passes here: ${why.join("; ")}.`];
}
