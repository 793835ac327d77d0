import { timesOutBetweenReadings } from "../limiter/index.ts";
import {
  type LineOutcome,
  missingOf,
  type OutcomeSpread,
  type SiteOutcome,
  type Spread,
  type Trial,
} from "../simulation/index.ts";
import {
  type BuildingSource,
  type HiddenDemand,
  type SimulatedSite,
  underMeans,
} from "../through-time/index.ts";
import type { Quantity } from "../worked/index.ts";
import { durationWords, withUnit } from "./format.ts";
import { fuseSentence } from "./fuse-sentence.ts";
import { remarksOf } from "./run-remarks.ts";
import { PART_WORDS, TRIAL_WORDS } from "./simulation-words.ts";
import type { ToldSentence, Tone } from "./told-sentence.ts";
import { STANDING_WORDS } from "./words.ts";

export interface TrialRow {
  readonly what: string;
  readonly fallback: string;
  readonly longest: string;
  readonly highest: string;
  /** Null where no curve is held for the main fuse. */
  readonly fuse: string | null;
  readonly tone: Tone;
}

/** A simulated site as it is shown: everything decided, nothing drawn. */
export interface SimulationView {
  readonly title: string;
  readonly cars: readonly ToldSentence[];
  readonly supply: readonly ToldSentence[];
  readonly timing: readonly ToldSentence[];
  readonly trials: readonly TrialRow[];
  /** What the run leaves open, and what was done about it. */
  readonly remarks: readonly string[];
  /** What stands in for facts nobody recorded: label, value, where it is from. */
  readonly assumed: readonly string[];
}

const HALF = 0.5;

export function simulationView(simulated: SimulatedSite): SimulationView {
  const { outcome, terms } = simulated;
  const { building } = terms;
  const from = building.from === null ? "drawn at random" : `recorded from ${building.from}`;
  return {
    title: `${daysOf(outcome.days)} of building demand ${from}, ${outcome.sessions.length} ${outcome.sessions.length === 1 ? "session" : "sessions"} of charging (seed ${terms.seed}).`,
    cars: carSentences(outcome),
    supply: supplySentences(simulated),
    timing: timingSentences(simulated),
    trials: simulated.trials.map((trial) => trialRow(trial, simulated)),
    remarks: [
      ...remarksOf({ building, outcome, site: simulated.site }),
      ...(outcome.days < terms.days
        ? [`Stopped after ${outcome.days} of ${terms.days} days; what is told holds for those.`]
        : []),
      "Load management keeps the main fuse from operating in ordinary use. It is not overload protection, and its integrity is not proved by a simulation: prove it on site.",
    ],
    assumed: [...containedIn(building), ...assumedOf(simulated.site.rests)],
  };
}

function carSentences(outcome: SiteOutcome): readonly ToldSentence[] {
  const { sessions, fullShare, missingKwh, deliveredKwh, days } = outcome;
  if (fullShare === null)
    return [{ tone: "unknown", text: "No car came in these days; simulate more of them, or another seed." }];
  const full = Math.round(fullShare * sessions.length);
  const worst = sessions.reduce((a, b) => (missingOf(b) > missingOf(a) ? b : a));
  return [
    {
      tone: fullShare === 1 ? "pass" : "none",
      text: `Full in ${full} of ${sessions.length} mornings (${percent(fullShare, "down")}). ${kwh(deliveredKwh)} delivered, ${kwh(deliveredKwh / sessions.length)} a night with a car, ${kwh(deliveredKwh / days)} a day.`,
    },
    ...(missingKwh > 0
      ? [
          {
            tone: "none" as const,
            text: `${kwh(missingKwh)} missing in all; most in one night ${kwh(missingOf(worst))} of ${kwh(worst.wantedKwh)} (day ${dayNumber(worst.startS)}).`,
          },
        ]
      : []),
    {
      tone: "none",
      text: `While a car asked for energy: charging ${hours(outcome.chargingH)}, turned down ${hours(outcome.throttledH)}, paused ${hours(outcome.pausedH)}; charging began ${outcome.starts} times.`,
    },
  ];
}

function supplySentences({
  outcome,
  site,
  usualS,
  longestS,
  states,
  hidden,
}: SimulatedSite): readonly ToldSentence[] {
  const limit = amps(site.plan.supplyLimitA, 0);
  const open = (told: ToldSentence): ToldSentence => ({ ...told, tone: underMeans(told.tone, hidden) });
  const lines = outcome.lines.flatMap(({ over, mostA }, index): ToldSentence[] => {
    const line = site.lines[index] as string;
    const byCars = outcome.excursions
      .filter((excursion) => excursion.line === index)
      .reduce((longest, { lengthS, aloneS }) => Math.max(longest, lengthS - aloneS), 0);
    const locks = states[index]?.filter(({ state }) => state === 3).length ?? 0;
    const alone =
      over.aloneS > 0
        ? ` In ${durationWords(over.aloneS)} of these the building is over by itself: no load manager can help that.`
        : "";
    const state =
      locks > 0 ? ` A limitation scheme would have locked ${locks === 1 ? "once" : `${locks} times`}.` : "";
    return [
      {
        tone: underMeans(
          byCars > longestS ? "fail" : byCars > usualS || over.aloneS > 0 ? "unknown" : "pass",
          hidden,
        ),
        text:
          over.count === 0
            ? `${line}: never over ${limit}; highest ${amps(mostA)}.`
            : `${line}: over ${limit} ${over.count === 1 ? "once" : `${over.count} times`}, ${durationWords(over.totalS)} in all, longest ${durationWords(over.longestS)}; highest ${amps(mostA)}.${alone}${state}`,
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

/** Why nothing about the supply passes on means, and where the minutes behind them may lie. */
function hiddenSentences(hidden: HiddenDemand | null): readonly ToldSentence[] {
  if (hidden === null) return [];
  const interval = withUnit(hidden.intervalS / 60, "min", Number.isInteger(hidden.intervalS / 60) ? 0 : 1);
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

function timingSentences(simulated: SimulatedSite): readonly ToldSentence[] {
  const { latency, blind, stability, usualS, site, trials } = simulated;
  const { fallbackA } = site.plan.control;
  const blindTones = trials
    .filter(
      (trial) => trial.fallbackA === fallbackA && (trial.kind === "bus-lost" || trial.kind === "meter-lost"),
    )
    .map((trial) => trialRow(trial, simulated).tone);
  const parts = (list: readonly { readonly part: keyof typeof PART_WORDS; readonly timeS: number }[]) =>
    list
      .filter(({ timeS }) => timeS > 0)
      .map(({ part, timeS }) => `${PART_WORDS[part]} ${durationWords(timeS)}`)
      .join(" + ");
  return [
    ...(latency === null
      ? [
          {
            tone: "unknown" as const,
            text: unbounded(site),
          },
        ]
      : [
          {
            tone: latency.totalS <= usualS ? ("pass" as const) : ("unknown" as const),
            text: `After a load step at most ${durationWords(latency.totalS)} over the limit, if the building by itself stays under it: ${parts(latency.parts)}.`,
          },
        ]),
    ...(timesOutBetweenReadings(site.plan.control)
      ? [
          {
            tone: "fail" as const,
            text: `The time-out of ${durationWords(site.plan.control.fallbackAfterS)} is over before the next reading comes (${durationWords(site.plan.control.readEveryS)}): the manager acts blind again and again with nothing wrong. Set a longer time-out or a shorter time between readings.`,
          },
        ]
      : []),
    blind === null
      ? {
          tone: "unknown",
          text: "No fallback is recorded, so this run holds the last offer when a reading is lost. Record the setting, and prove it.",
        }
      : {
          tone: blindTones.includes("fail") ? "fail" : blindTones.includes("unknown") ? "unknown" : "none",
          text: `Without a reading the fallback${fallbackA === null ? "" : ` of ${amps(fallbackA)}`} is taken within ${durationWords(blind.totalS)}: ${parts(blind.parts)}.${blindTones.includes("fail") ? " Where the building is at its highest that is too much: lower it." : ""}`,
        },
    ...(stability === null
      ? []
      : [
          {
            tone: ({ calm: "pass", rings: "unknown", unstable: "fail" } as const)[stability.state],
            text: `The chain answers ${stability.lateDecisions} decisions late. Gain ${stability.gain}: without overshoot up to ${withUnit(stability.calmUpTo, "", 3, "down")}, stable below ${withUnit(stability.stableBelow, "", 3, "down")}.`,
          },
        ]),
  ];
}

/** Why the delays bound no time over the limit. */
const unbounded = ({ plan, ungoverned }: SimulatedSite["site"]): string =>
  ungoverned.length > 0
    ? `Cars at ${ungoverned.join(", ")} follow no offer: delays alone bound no time over the limit.`
    : plan.control.law.kind === "integrating"
      ? "The manager integrates: its delays alone bound no time over the limit."
      : "While a fallback is taken with nothing wrong, delays alone bound no time over the limit.";

function trialRow(
  { kind, fallbackA, outcome }: Trial,
  { longestS, usualS, hidden }: SimulatedSite,
): TrialRow {
  const longest = Math.max(...outcome.lines.map(({ over }) => over.longestS));
  const byCars = outcome.excursions.reduce(
    (most, { lengthS, aloneS }) => Math.max(most, lengthS - aloneS),
    0,
  );
  const highest = Math.max(...outcome.lines.map(({ mostA }) => mostA));
  const isHot = outcome.bodies.some(({ mostC, limitC }) => mostC > limitC);
  const aloneS = Math.max(...outcome.lines.map(({ over }) => over.aloneS));
  const fuses = outcome.lines.flatMap(({ fuse }) => (fuse === null ? [] : [fuse]));
  const fast = Math.max(0, ...fuses.map((fuse) => fuse.fast));
  const slow = Math.max(0, ...fuses.map((fuse) => fuse.slow));
  return {
    what: TRIAL_WORDS[kind],
    fallback: fallbackA === null ? "last offer held" : amps(fallbackA, 0),
    longest: durationWords(longest),
    highest: isHot ? `${amps(highest)}, a cable above its limit` : amps(highest),
    fuse:
      fuses.length === 0 ? null : slow >= 1 ? "operates" : fast >= 1 ? "may operate" : percent(fast, "up"),
    tone: underMeans(
      byCars > longestS || fast >= 1 || isHot
        ? "fail"
        : byCars > usualS || fast >= HALF || aloneS > 0 || (fuses.length === 0 && longest > 0)
          ? "unknown"
          : "pass",
      hidden,
    ),
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
    `${show(median)} (nine in ten from ${show(low)} to ${show(high)})`;
  return [
    `${seeds} seeds, each with other cars and, where it is drawn, another building:`,
    ...(fullShare === null ? [] : [`mornings full ${from(fullShare, (value) => percent(value, "down"))}`]),
    ...(kwhPerSession === null ? [] : [`energy per night ${from(kwhPerSession, kwh)}`]),
    ...(missingKwhPerSession === null ? [] : [`missing per night ${from(missingKwhPerSession, kwh)}`]),
    `time over the supply's limit on the worst line ${from(supply.overTotalS, durationWords)}, longest ${from(supply.overLongestS, durationWords)}`,
    `highest current ${from(supply.mostA, (value) => amps(value))}`,
    ...(supply.fast === null
      ? []
      : [`life of the fuse used at once ${from(supply.fast, (value) => percent(value, "up"))}`]),
  ];
}

const decimalsOf = (value: number): number => Math.min(6, (String(value).split(".")[1] ?? "").length);
const daysOf = (days: number): string => `${days} ${days === 1 ? "day" : "days"}`;
const percent = (share: number, rounding: "up" | "down"): string => withUnit(100 * share, "%", 0, rounding);
const kwh = (value: number): string => withUnit(value, "kWh", 1);
const amps = (value: number, decimals = 1): string => withUnit(value, "A", decimals, "up");
const hours = (value: number): string => withUnit(value, "h", 1);
const dayNumber = (timeS: number): number => Math.floor(timeS / 86_400) + 1;
