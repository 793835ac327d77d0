import { type LineOutcome, lengthByCarsS } from "../simulation/index.ts";
import { type SimulatedSite, underMeans } from "../through-time/index.ts";
import { durationWords, withUnit } from "./format.ts";
import { fuseSentence } from "./fuse-sentence.ts";
import { hiddenSentences } from "./hidden-sentences.ts";
import { amps } from "./told-figures.ts";
import type { ToldSentence } from "./told-sentence.ts";

/** Share of the time cars charge beyond which even short excursions come too often to pass. Own judgement. */
const OFTEN = 0.01;

/** What the supply carried: each line beside its limit, the main fuse, the cables. */
export function supplySentences({
  outcome,
  site,
  usualS,
  longestS,
  states,
  hidden,
  terms: { building },
}: SimulatedSite): readonly ToldSentence[] {
  const isDrawn = building.kind === "drawn" || (building.adds ?? []).length > 0;
  const limit = amps(site.plan.supplyLimitA, 0);
  const open = (told: ToldSentence): ToldSentence => ({ ...told, tone: underMeans(told.tone, hidden) });
  const lines = outcome.lines.flatMap(({ over, mostA }, index): ToldSentence[] => {
    const line = site.lines[index] as string;
    const byCars = outcome.excursions
      .filter((excursion) => excursion.line === index)
      .reduce((longest, excursion) => Math.max(longest, lengthByCarsS(excursion)), 0);
    const locks = states[index]?.filter(({ state }) => state === 3).length ?? 0;
    const alone =
      over.aloneS > 0
        ? ` In ${durationWords(over.aloneS)} of these the building is over by itself: no load manager can help that.`
        : "";
    const withCarsS = over.totalS - over.aloneS;
    const isOften = withCarsS > OFTEN * outcome.chargingH * 3600;
    const often = isOften
      ? ` With cars in it that is more than ${withUnit(100 * OFTEN, "%", 0)} of the time they charge: widen the margin or read more often.`
      : "";
    const state =
      locks > 0
        ? ` A limitation scheme would have kept the cars off ${locks === 1 ? "once" : `${locks} times`}, for four hours each: after one excursion longer than ${durationWords(longestS)}, or the third in a day longer than ${durationWords(usualS)}.`
        : "";
    return [
      {
        tone: underMeans(
          byCars > longestS
            ? "fail"
            : byCars > usualS ||
                isOften ||
                isDrawn ||
                over.aloneS > 0 ||
                (over.count > 0 && site.plan.fuse === null)
              ? "unknown"
              : "pass",
          hidden,
        ),
        text:
          over.count === 0
            ? `${line}: never over ${limit} in these days${isDrawn ? ", drawn in part" : ""}; highest ${amps(mostA)}.`
            : `${line}: over ${limit} ${over.count === 1 ? "once" : `${over.count} times`}, ${durationWords(over.totalS)} in all, longest ${durationWords(over.longestS)}; highest ${amps(mostA)}.${alone}${often}${state}`,
      },
      open(
        fuseSentence(line, outcome.lines[index] as LineOutcome, {
          band: site.plan.fuse?.band ?? null,
          ratingA: site.fuseRatingA,
        }),
      ),
    ];
  });
  const carriesSupply = new Set(
    site.plan.bodies.flatMap(({ id, carries }) => (carries === "supply" ? [id] : [])),
  );
  const bodies = outcome.bodies.map(
    ({ id, mostC, limitC, line }): ToldSentence => ({
      tone: underMeans(mostC > limitC ? "fail" : "pass", carriesSupply.has(id) ? hidden : null),
      text: `${id}${outcome.lines.length > 1 ? `, ${site.lines[line]}` : ""}: at most ${withUnit(mostC, "°C", 0, "up")} of ${withUnit(limitC, "°C", 0)}.`,
    }),
  );
  return [...hiddenSentences(hidden), ...lines, ...bodies];
}
