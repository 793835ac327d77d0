import type { Trial } from "../simulation/index.ts";
import { fuseVerdict, type SimulatedSite, toneOfFuse, underDoubts } from "../through-time/index.ts";
import { durationWords } from "./format.ts";
import { fuseWords } from "./fuse-sentence.ts";
import { TRIAL_WORDS } from "./simulation-words.ts";
import { amps, setAmps } from "./told-figures.ts";
import type { Tone } from "./told-sentence.ts";

export interface TrialRow {
  readonly what: string;
  /** Null where none is ever taken. */
  readonly fallback: string | null;
  /** Longest time over the limit, and with a car in it where the building is over by itself; "never". */
  readonly over: string;
  readonly highest: string;
  /** Null where no curve is held for the main fuse. */
  readonly fuse: string | null;
  readonly tone: Tone;
}

/** One row where the fallback makes no difference. */
export const merged = (rows: readonly TrialRow[]): readonly TrialRow[] =>
  rows.flatMap((row, index) => {
    const isLike = (other: TrialRow | undefined) =>
      other !== undefined &&
      JSON.stringify({ ...other, fallback: "" }) === JSON.stringify({ ...row, fallback: "" });
    if (isLike(rows[index - 1])) return [];
    return [isLike(rows[index + 1]) ? { ...row, fallback: "makes no difference" } : row];
  });

function overWords(longestS: number, byCarsS: number | null): string {
  if (longestS === 0) return "never";
  const within = byCarsS === null ? "" : `, a car in it for ${durationWords(byCarsS)}`;
  return `for up to ${durationWords(longestS)}${within}`;
}

export function trialRow(
  { kind, fallbackA, outcome }: Trial,
  { longestS, usualS, doubts, site }: SimulatedSite,
): TrialRow {
  const longest = Math.max(...outcome.lines.map(({ over }) => over.longestS));
  const byCars = outcome.excursions.reduce((most, { carS }) => Math.max(most, carS), 0);
  const highest = Math.max(...outcome.lines.map(({ mostA }) => mostA));
  const isHot = outcome.bodies.some(({ mostC, limitC }) => mostC > limitC);
  const aloneS = Math.max(...outcome.lines.map(({ over }) => over.aloneS));
  const main = { band: site.plan.fuse?.band ?? null, ratingA: site.fuseRatingA };
  const fuses = main.band === null ? [] : outcome.lines.map((line) => fuseVerdict(line, main));
  const fuseTones = fuses.map(toneOfFuse);
  return {
    what: TRIAL_WORDS[kind],
    fallback: kind === "nothing" ? null : fallbackA === null ? "last offer held" : setAmps(fallbackA),
    over: overWords(longest, aloneS > 0 ? byCars : null),
    highest: isHot ? `${amps(highest)}, a cable above its limit` : amps(highest),
    fuse: fuses.length === 0 ? null : fuseWords(fuses),
    tone: underDoubts(
      byCars > longestS || fuseTones.includes("fail") || isHot
        ? "fail"
        : byCars > usualS ||
            fuseTones.includes("unknown") ||
            aloneS > 0 ||
            (fuses.length === 0 && longest > 0)
          ? "unknown"
          : "pass",
      doubts,
    ),
  };
}
