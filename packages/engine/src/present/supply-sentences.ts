import type { ClassedExcursion } from "../limiter/index.ts";
import type { LineOutcome } from "../simulation/index.ts";
import { type SimulatedSite, underDoubts } from "../through-time/index.ts";
import { doubtWords } from "./doubt-words.ts";
import { durationWords, withUnit } from "./format.ts";
import { fuseSentence } from "./fuse-sentence.ts";
import { hiddenSentences } from "./hidden-sentences.ts";
import { amps, setAmps } from "./told-figures.ts";
import type { ToldSentence } from "./told-sentence.ts";

/** Share of the time cars charge beyond which even short excursions come too often to pass. Own judgement. */
const OFTEN = 0.01;

/** What the supply carried: each line beside its limit, the main fuse, the cables. */
export function supplySentences(simulated: SimulatedSite): readonly ToldSentence[] {
  const { outcome, site, hidden, doubts } = simulated;
  const main = { band: site.plan.fuse?.band ?? null, ratingA: site.fuseRatingA };
  const doubted = (told: ToldSentence): ToldSentence => ({ ...told, tone: underDoubts(told.tone, doubts) });
  const lines = outcome.lines.flatMap((line, index) => [
    doubted(lineSentence(simulated, index)),
    doubted(fuseSentence(site.lines[index] as string, line, main)),
  ]);
  const carriesSupply = new Set(
    site.plan.bodies.flatMap(({ id, carries }) => (carries === "supply" ? [id] : [])),
  );
  const bodies = outcome.bodies.map(({ id, mostC, limitC, line }): ToldSentence => {
    const told = {
      tone: mostC > limitC ? ("fail" as const) : ("pass" as const),
      text: `${id}${outcome.lines.length > 1 ? `, ${site.lines[line]}` : ""}: at most ${withUnit(mostC, "°C", 0, "up")} of ${withUnit(limitC, "°C", 0)}.`,
    };
    return carriesSupply.has(id) ? doubted(told) : told;
  });
  const why = doubtWords(doubts).map((text): ToldSentence => ({ tone: "unknown", text }));
  return [...hiddenSentences(hidden), ...why, ...lines, ...bodies];
}

/** A line beside the supply's limit. */
function lineSentence(
  { outcome, site, usualS, longestS, states, terms: { building } }: SimulatedSite,
  index: number,
): ToldSentence {
  const { over, mostA, mostOutA } = outcome.lines[index] as LineOutcome;
  const line = site.lines[index] as string;
  const limit = setAmps(site.plan.supplyLimitA);
  const byCars = outcome.excursions
    .filter((excursion) => excursion.line === index)
    .reduce((longest, { carS }) => Math.max(longest, carS), 0);
  const isOften = over.carS > OFTEN * outcome.chargingH * 3600;
  const isMuchSentOut = mostOutA > site.plan.supplyLimitA;
  const isOpen =
    byCars > usualS ||
    isOften ||
    isMuchSentOut ||
    over.aloneS > 0 ||
    (over.count > 0 && site.plan.fuse === null);
  const drawn =
    building.kind === "drawn" ? ", drawn" : (building.adds ?? []).length > 0 ? ", drawn in part" : "";
  const sentences = [
    over.count === 0
      ? `never over ${limit} in these days${drawn}; highest ${amps(mostA)}.`
      : `over ${limit} ${over.count === 1 ? "once" : `${over.count} times`}, ${durationWords(over.totalS)} in all, longest ${durationWords(over.longestS)}; highest ${amps(mostA)}.`,
    isMuchSentOut
      ? `Up to ${amps(mostOutA)} were sent out, which is more than that as well: what may be sent out is agreed with the operator.`
      : "",
    over.aloneS > 0
      ? `In ${durationWords(over.aloneS)} of these the building is over by itself: no load manager can help that. ${over.carS > 0 ? `A car drew for ${durationWords(over.carS)} while the line was over.` : "No car drew while the line was over."}`
      : "",
    isOften ? oftenSentence(site.ungoverned) : "",
    lockSentence(states[index] ?? [], { usualS, longestS }),
  ];
  return {
    tone: byCars > longestS ? "fail" : isOpen ? "unknown" : "pass",
    text: `${line}: ${sentences.filter((sentence) => sentence !== "").join(" ")}`,
  };
}

const oftenSentence = (ungoverned: readonly string[]): string =>
  `With cars in it that is more than ${withUnit(100 * OFTEN, "%", 0)} of the time they charge: ${ungoverned.length > 0 ? `cars at ${ungoverned.join(", ")} follow no offer` : "widen the margin or read more often"}.`;

function lockSentence(
  states: readonly ClassedExcursion[],
  { usualS, longestS }: Pick<SimulatedSite, "usualS" | "longestS">,
): string {
  const locks = states.filter(({ state }) => state === 3).length;
  if (locks === 0) return "";
  return `A limitation scheme would have kept the cars off ${locks === 1 ? "once" : `${locks} times`}, for four hours each: after one excursion longer than ${durationWords(longestS)}, or the third in a day longer than ${durationWords(usualS)}.`;
}
