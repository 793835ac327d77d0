import { ENOUGH_FOR_NINE_IN_TEN, type OutcomeSpread, type Spread } from "../simulation/index.ts";
import type { BuildingSource, SimulatedSite } from "../through-time/index.ts";
import type { Quantity } from "../worked/index.ts";
import { carSentences } from "./car-sentences.ts";
import { durationWords, withUnit } from "./format.ts";
import { managerSentences } from "./manager-sentences.ts";
import { remarksOf } from "./run-remarks.ts";
import { PRESUMPTION_WORDS, TRIALS_SENTENCE } from "./simulation-words.ts";
import { supplySentences } from "./supply-sentences.ts";
import { amps, days, kwh, percent } from "./told-figures.ts";
import type { ToldSentence } from "./told-sentence.ts";
import { merged, type TrialRow, trialRow } from "./trial-rows.ts";
import { STANDING_WORDS } from "./words.ts";

/** A simulated site as it is shown: everything decided, nothing drawn. */
export interface SimulationView {
  readonly title: string;
  readonly cars: readonly ToldSentence[];
  readonly supply: readonly ToldSentence[];
  readonly timing: readonly ToldSentence[];
  readonly trials: readonly TrialRow[];
  /** What days the trials are of. */
  readonly trialsAre: string;
  /** What the run leaves open, and what was done about it. */
  readonly remarks: readonly string[];
  /** What stands in for facts nobody recorded: label, value, where it is from. */
  readonly assumed: readonly string[];
}

export function simulationView(simulated: SimulatedSite): SimulationView {
  const { outcome, terms } = simulated;
  const { building } = terms;
  const repeats = Number.isFinite(building.days) && outcome.days > building.days;
  const source =
    building.from === null
      ? " drawn at random"
      : repeats
        ? `, ${building.days} of them recorded from ${building.from} and repeated`
        : ` recorded from ${building.from}`;
  return {
    title: `${days(outcome.days)} of building demand${source}, ${outcome.sessions.length} ${outcome.sessions.length === 1 ? "session" : "sessions"} of charging (seed ${terms.seed}).`,
    cars: carSentences(outcome),
    supply: supplySentences(simulated),
    timing: managerSentences(simulated),
    trialsAre: TRIALS_SENTENCE,
    trials: merged(simulated.trials.map((trial) => trialRow(trial, simulated))),
    remarks: [
      ...remarksOf({ building, outcome, site: simulated.site }),
      ...(outcome.days < terms.days
        ? [`Stopped after ${outcome.days} of ${terms.days} days; what is told holds for those.`]
        : []),
      "Load management keeps the main fuse from operating in ordinary use. It is not overload protection, and its integrity is not proved by a simulation: prove it on site.",
    ],
    assumed: [
      ...containedIn(building),
      ...simulated.site.presumed.map((presumption) => PRESUMPTION_WORDS[presumption]),
      ...assumedOf(simulated.site.rests),
    ],
  };
}

/** What a recording is taken to contain. */
const containedIn = ({ contains = [] }: BuildingSource): readonly string[] =>
  contains.length === 0
    ? []
    : [`The recording contains ${contains.join(", ")}: nothing says that it lacks them.`];

function assumedOf(rests: readonly Quantity[]): readonly string[] {
  const seen = new Set<string>();
  return rests.flatMap((quantity) => {
    if (quantity.kind !== "figure" || seen.has(quantity.label)) return [];
    seen.add(quantity.label);
    const { label, value, unit, citation } = quantity;
    return [`${label}: ${withUnit(value, unit, decimalsOf(value))} (${STANDING_WORDS[citation.standing]})`];
  });
}

/** How far seeds spread, in sentences. */
export function spreadSentences({
  seeds,
  fullShare,
  missingKwhPerSession,
  kwhPerSession,
  ...supply
}: OutcomeSpread): readonly string[] {
  const from = ({ low, median, high }: Spread, show: (value: number) => string): string =>
    `${show(median)} (${seeds < ENOUGH_FOR_NINE_IN_TEN ? "" : "nine in ten "}from ${show(low)} to ${show(high)})`;
  return [
    `${seeds} seeds, each with other cars and, where it is drawn, another building:`,
    ...(fullShare === null
      ? []
      : [`sessions that ended full ${from(fullShare, (value) => percent(value, "down"))}`]),
    ...(kwhPerSession === null ? [] : [`energy a session ${from(kwhPerSession, kwh)}`]),
    ...(missingKwhPerSession === null ? [] : [`missing a session ${from(missingKwhPerSession, kwh)}`]),
    `time over the supply's limit on the worst line ${from(supply.overTotalS, durationWords)}, longest ${from(supply.overLongestS, durationWords)}`,
    `highest current ${from(supply.mostA, (value) => amps(value))}`,
    ...(supply.fast === null
      ? []
      : [`life of the fuse used at once ${from(supply.fast, (value) => percent(value, "up"))}`]),
  ];
}

/** As many as the figure has. */
const decimalsOf = (value: number): number => {
  const [digits = "", exponent = "0"] = String(value).split("e");
  return Math.max(0, (digits.split(".")[1] ?? "").length - Number(exponent));
};
