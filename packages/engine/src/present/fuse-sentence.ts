import type { Gate, TimeCurrentBand } from "../protection/index.ts";
import { type LineOutcome, MOST_FUSE_LIFE } from "../simulation/index.ts";
import { durationWords, withUnit } from "./format.ts";
import type { ToldSentence } from "./told-sentence.ts";

/**
 * How near the main fuse of a line came.
 *
 * The first gate of its curve says what it carries for an hour or two, not for good: time over the limit that is
 * longer than that leaves it open.
 *
 * @param main.ratingA Rating of the fuse; null while it is not known. [A]
 */
export function fuseSentence(
  line: string,
  { fuse, over, mostA }: LineOutcome,
  main: { readonly band: TimeCurrentBand | null; readonly ratingA: number | null },
): ToldSentence {
  if (fuse === null || main.band === null)
    return {
      tone: "unknown",
      text: `${line}: no time-current band is held for this main fuse, so how near it came cannot be told.`,
    };
  const [gateA, gateS] = main.band.fast[0] as Gate;
  if (main.ratingA !== null && mostA <= main.ratingA)
    return { tone: "pass", text: `${line}: the main fuse never carried more than its rating.` };
  const moment =
    fuse.minute === null ? "" : ` (day ${Math.floor(fuse.minute / 1440) + 1} at ${clock(fuse.minute)})`;
  const estimate = "An estimate: the gates of the curve are recalled.";
  if (fuse.slow >= 1)
    return { tone: "fail", text: `${line}: the main fuse would have operated${moment}. ${estimate}` };
  if (fuse.fast >= 1)
    return { tone: "fail", text: `${line}: the main fuse may have operated${moment}. ${estimate}` };
  if (over.longestS > gateS)
    return {
      tone: "unknown",
      text: `${line}: over the limit for ${durationWords(over.longestS)} at a time, and the curve of the main fuse says what it carries for ${durationWords(gateS)} and no longer: how near it came cannot be told.`,
    };
  if (fuse.minute === null)
    return {
      tone: "pass",
      text: `${line}: the main fuse never carried the ${withUnit(gateA, "A", 1, "down")} from which it may operate within ${durationWords(gateS)}.`,
    };
  return {
    tone: fuse.fast >= MOST_FUSE_LIFE ? "unknown" : "pass",
    text: `${line}: at most ${withUnit(100 * fuse.fast, "%", 0, "up")} of the main fuse's life was used at once${moment}; at 100 % it may operate. ${estimate}`,
  };
}

const clock = (minute: number): string =>
  `${String(Math.floor((minute % 1440) / 60)).padStart(2, "0")}:${String(minute % 60).padStart(2, "0")}`;
