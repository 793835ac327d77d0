import type { HiddenDemand } from "../through-time/index.ts";
import { withUnit } from "./format.ts";
import { amps } from "./told-figures.ts";
import type { ToldSentence } from "./told-sentence.ts";

/** Why nothing about the supply passes on means, and where the minutes behind them may lie. */
export function hiddenSentences(hidden: HiddenDemand | null): readonly ToldSentence[] {
  if (hidden === null) return [];
  const minutes = hidden.intervalS / 60;
  const interval = withUnit(minutes, "min", Number.isInteger(minutes) ? 0 : 1);
  return hidden.lines.map(({ line, highestMeanA, peak }): ToldSentence => {
    const minute =
      peak === null || highestMeanA === null
        ? "what the minutes carried cannot be told"
        : `behind its highest mean of ${amps(highestMeanA)} stood a minute of ${amps(peak.seen.lowA)} to ${amps(peak.seen.highA)} in the one house that was measured by the minute${peak.withShortLoadA === null ? "" : `, up to ${amps(peak.withShortLoadA)} with the shower of this line on top`}; by arithmetic at most ${amps(peak.certain.highA)}`;
    return {
      tone: "unknown",
      text: `${line}: whether the main fuse is safe cannot be told. The building is known as means of ${interval}, which hide its peaks: ${minute}. Record the supply by the minute. What follows holds for the means.`,
    };
  });
}
