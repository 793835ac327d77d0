import type { LineOutcome } from "../simulation/index.ts";
import { type FuseVerdict, fuseVerdict, type MainFuse, toneOfFuse } from "../through-time/index.ts";
import { durationWords, withUnit } from "./format.ts";
import { amps, percent } from "./told-figures.ts";
import type { ToldSentence } from "./told-sentence.ts";

/** How near the main fuse of a line came. */
export function fuseSentence(line: string, outcome: LineOutcome, main: MainFuse): ToldSentence {
  const verdict = fuseVerdict(outcome, main);
  return { tone: toneOfFuse(verdict), text: `${line}: ${said(verdict, outcome)}` };
}

const ESTIMATE = "An estimate: the gates of the curve are recalled.";

function said(verdict: FuseVerdict, { fuse, over, mostOutA }: LineOutcome): string {
  const minute = fuse?.minute ?? null;
  const moment = minute === null ? "" : ` (day ${Math.floor(minute / 1440) + 1} at ${clock(minute)})`;
  switch (verdict.kind) {
    case "no-band":
      return "no time-current band is held for this main fuse, so how near it came cannot be told.";
    case "within-rating":
      return "the main fuse never carried more than its rating.";
    case "would-operate":
      return `the main fuse would have operated${moment}. ${ESTIMATE}`;
    case "may-operate":
      return `the main fuse may have operated${moment}. ${ESTIMATE}`;
    case "longer-than-curve":
      return `over the limit for ${durationWords(over.longestS)} at a time, and the curve of the main fuse says what it carries for ${durationWords(verdict.gate[1])} and no longer: how near it came cannot be told.`;
    case "sent-out-above-rating":
      return `up to ${amps(mostOutA)} were sent out, more than the rating of the main fuse, and for how long at a time is not counted: how near it came cannot be told.`;
    case "below-curve":
      return `the main fuse never carried the ${withUnit(verdict.gate[0], "A", 1, "down")} from which it may operate within ${durationWords(verdict.gate[1])}.`;
    default:
      return `at most ${percent(verdict.share, "up")} of the main fuse's life was used at once${moment}; at 100 % it may operate. ${ESTIMATE}`;
  }
}

/** The same in a few words, for a table. */
export function fuseWords(verdicts: readonly FuseVerdict[]): string {
  const kinds = new Set(verdicts.map(({ kind }) => kind));
  if (kinds.has("would-operate")) return "operates";
  if (kinds.has("may-operate")) return "may operate";
  if (verdicts.some((verdict) => toneOfFuse(verdict) === "unknown" && verdict.kind !== "used"))
    return "cannot be told";
  return percent(Math.max(0, ...verdicts.map((one) => (one.kind === "used" ? one.share : 0))), "up");
}

const clock = (minute: number): string =>
  `${String(Math.floor((minute % 1440) / 60)).padStart(2, "0")}:${String(minute % 60).padStart(2, "0")}`;
