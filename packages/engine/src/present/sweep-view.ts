import {
  missingPerSessionKwh,
  overByCarsS,
  type Refusal,
  type SiteOutcome,
  settingRefusal,
  wholeSessionsOf,
} from "../simulation/index.ts";
import { doubtsOf, type SweptSite } from "../through-time/index.ts";
import { doubtWords } from "./doubt-words.ts";
import { durationWords, withUnit } from "./format.ts";
import { remarksOf } from "./run-remarks.ts";
import { days, sessions, setAmps } from "./told-figures.ts";

export interface SweepRow {
  readonly limit: string;
  readonly margin: string;
  readonly readEvery: string;
  readonly mornings: string;
  readonly missing: string;
  readonly longest: string;
  readonly over: string;
  /** Of that, with a car in it. */
  readonly byCars: string;
  readonly fuse: string;
  /** Why it is not safe; empty when it is. */
  readonly refused: string;
  readonly isRecommended: boolean;
}

/** A sweep as it is shown: rows that differ in what they do, and what they speak for. */
export interface SweepView {
  readonly title: string;
  readonly rows: readonly SweepRow[];
  readonly recommendation: readonly string[];
  readonly fallbacks: readonly string[];
  /** What the days that were run leave open. */
  readonly remarks: readonly string[];
}

const REFUSALS: Readonly<Record<Refusal, string>> = {
  "margin-too-small": "less margin than the metering chain needs",
  "time-out-too-short": "time-out over before the next reading",
  "too-slow": "its delays alone may be over too long",
  "over-too-long": "over too long",
  "fuse-too-near": "too near the fuse",
  "cable-too-hot": "cable too hot",
};

/** @param askedCount Settings that were asked for; more than were run when the person stopped it. */
export function sweepView(swept: SweptSite, askedCount = swept.swept.length): SweepView {
  const { recommendation, terms } = swept;
  const seen = new Set<SiteOutcome>();
  const distinct = swept.swept.filter(({ outcome }) => !seen.has(outcome) && seen.add(outcome));
  const first = swept.swept[0]?.outcome;
  return {
    title: `${swept.swept.length < askedCount ? `Stopped: ${swept.swept.length} of ${askedCount}` : askedCount} settings over ${days(first?.days ?? 0)} with ${sessions(first?.sessions.length ?? 0)} of charging; ${distinct.length === swept.swept.length ? "all differ in what they do" : `${distinct.length === 1 ? "they all do the same, shown once" : `they do ${distinct.length} different things, shown once each`}`}.`,
    rows: distinct.map((one) => {
      const { setting, outcome } = one;
      const refusal = settingRefusal(one, terms);
      return {
        limit: setAmps(setting.limitA),
        margin: setAmps(setting.marginA),
        readEvery: durationWords(setting.readEveryS),
        ...figuresOf(outcome),
        refused: refusal === null ? "" : REFUSALS[refusal],
        isRecommended: recommendation.setting !== null && recommendation.outcome === outcome,
      };
    }),
    recommendation: recommendationOf(swept),
    fallbacks: fallbacksOf(swept),
    remarks: first === undefined ? [] : sweepRemarks(swept, first),
  };
}

function figuresOf(outcome: SiteOutcome) {
  const { fullShare, lines } = outcome;
  const fuses = lines.flatMap(({ fuse }) => (fuse === null ? [] : [fuse.fast]));
  return {
    mornings: fullShare === null ? "–" : withUnit(100 * fullShare, "%", 0, "down"),
    missing: withUnit(missingPerSessionKwh(outcome), "kWh", 2),
    longest: durationWords(Math.max(...lines.map(({ over }) => over.longestS))),
    over: durationWords(Math.max(...lines.map(({ over }) => over.totalS))),
    byCars: durationWords(overByCarsS(outcome)),
    fuse: fuses.length === 0 ? "–" : withUnit(100 * Math.max(...fuses), "%", 0, "up"),
  };
}

function recommendationOf({ recommendation, terms, swept }: SweptSite): readonly string[] {
  const { refused } = recommendation;
  const why = (Object.keys(refused) as Refusal[])
    .filter((refusal) => refused[refusal] > 0)
    .map((refusal) => `${refused[refusal]} ${REFUSALS[refusal]}`);
  const against = why.length === 0 ? "None is refused." : `Refused: ${why.join(", ")}.`;
  if (swept.every(({ outcome }) => wholeSessionsOf(outcome).length === 0))
    return [
      "No car came and left again in these days, so no setting can be recommended. Sweep more of them, or another seed.",
    ];
  if (recommendation.setting === null && sum(Object.values(refused)) < swept.length)
    return [
      `No car charges under the settings that are not refused. ${against} ${swept.some(({ setting }) => setting.limitA < terms.plan.supplyLimitA) ? "Sweep higher limits." : "The limits are the supply's already: ask for a larger supply."}`,
    ];
  if (recommendation.setting === null)
    return [
      `No setting here is safe. ${against} Sweep wider margins, a shorter time between readings, or ask for a larger supply.`,
    ];
  const { setting, worseCount, equalCount, next, isBounded } = recommendation;
  const [first] = swept;
  const isUntold =
    worseCount === 0 && equalCount > 1 && swept.every(({ outcome }) => overByCarsS(outcome) === 0);
  return [
    `Set ${setAmps(setting.limitA - setting.marginA)}, a margin of ${setAmps(setting.marginA)} under ${setAmps(setting.limitA)}, and a reading every ${durationWords(setting.readEveryS)}.`,
    `${against} Of the ${worseCount + equalCount} that are left ${worseCount} ${worseCount === 1 ? "serves" : "serve"} the cars less well. The other ${equalCount} serve them about alike, within a hundredth of the sessions; of those this one spends the least time over the limit with a car charging; among equals it keeps the widest margin and reads ${isBounded ? "least" : "most"} often.`,
    ...(isBounded
      ? []
      : [
          "The delays of this manager bound no time over the limit, so these days alone speak for it: that is no proof.",
        ]),
    ...(isUntold
      ? [
          `These days do not tell the settings apart: no car was in any time over the limit.${first !== undefined && first.outcome.days < 365 ? " Sweep a year, or more days." : " The margin then rests on the metering chain alone; a wider one costs nothing here."}`,
        ]
      : []),
    ...next.map((other) => {
      const refusal = settingRefusal(other, terms);
      const figures = figuresOf(other.outcome);
      return `With a margin of ${setAmps(other.setting.marginA)}: sessions full ${figures.mornings}, ${figures.missing} missing a session, longest ${figures.longest} over, ${figures.byCars} in all with a car in it${refusal === null ? "" : ` – ${REFUSALS[refusal]}`}.`;
    }),
    "What would change this: more energy wanted a night, an earlier departure, a building that draws more than these days show, or a manager that is slower than taken here.",
  ];
}

/** What no setting answers for, and what the run says of itself. */
function sweepRemarks({ terms, site, building }: SweptSite, outcome: SiteOutcome): readonly string[] {
  const alone = terms.withoutCars.lines.map(({ over, fuse }) => ({ over, fast: fuse?.fast ?? 0 }));
  const isOver = alone.some(({ over }) => over.totalS > 0);
  return [
    ...(isOver
      ? [
          `The building by itself, without any car, is over the supply's limit for ${durationWords(Math.max(...alone.map(({ over }) => over.totalS)))} in these days${alone.some(({ fast }) => fast >= 1) ? ", and the main fuse may operate" : ""}: no setting helps that. That a setting is not refused says nothing of the building.`,
        ]
      : []),
    ...doubtWords(doubtsOf({ building, outcome, site })),
    ...site.misplaced.map(
      (transformer) =>
        `${transformer} does not see all that the main fuse carries, and these runs take it as moved to where it does. Until it is, nothing told here holds.`,
    ),
    ...(isOwnAbove(terms)
      ? [
          `The job's own limit of ${setAmps(terms.plan.control.limitA - terms.plan.control.marginA)} is above what the supply allows and is not among these: lower it.`,
        ]
      : []),
    ...(site.plan.fuse === null
      ? ["No time-current band is held for this main fuse: no setting is judged by how near it came."]
      : []),
    ...remarksOf({ building, outcome, site }),
    "It rests on the same figures as a simulation, recalled and assumed ones among them: simulate lists them.",
  ];
}

/** Whether the limit in force is above the supply's. */
const isOwnAbove = ({ plan: { control, supplyLimitA } }: SweptSite["terms"]): boolean =>
  control.limitA - control.marginA > supplyLimitA;

function fallbacksOf({ fallbacks, fallbackA, designedA, mostTimeOutS, terms }: SweptSite): readonly string[] {
  if (fallbacks.length === 0) return [];
  const rows = fallbacks.map(({ kind, fallbackA: tried, outcome, refusal }) => {
    const { longest, fuse } = figuresOf(outcome);
    const when = kind === "bus-lost" ? "broken an hour before" : "breaking as it rises most";
    return `${tried === null ? "last offer held" : setAmps(tried)}, ${when}: over for up to ${longest}, life of the fuse used ${fuse === "–" ? "cannot be told" : fuse}${refusal === null ? "" : ` – ${REFUSALS[refusal]}`}.`;
  });
  const isLate =
    mostTimeOutS !== null &&
    terms.plan.control.fallbackAfterS > mostTimeOutS &&
    fallbacks.some(
      ({ kind, refusal }) =>
        kind === "bus-lost-on-rise" && (refusal === "over-too-long" || refusal === "fuse-too-near"),
    );
  const timeOut = isLate
    ? [
        `The time-out of ${durationWords(terms.plan.control.fallbackAfterS)} is too long where the building rises: until it is over the last offer stands. Set ${durationWords(mostTimeOutS)} or less.`,
      ]
    : [];
  const isPauseTried = fallbacks.some(({ fallbackA: tried }) => tried === 0);
  return [
    ...rows,
    ...timeOut,
    ...(designedA === null
      ? []
      : [
          `With the building at its most the design leaves each charge point ${setAmps(designedA)}: no higher fallback is named safe, whatever these days show.`,
        ]),
    ...(fallbackA !== null
      ? [
          `Fallback ${setAmps(fallbackA)} per charge point is the highest of these that stays safe with the bus broken.`,
        ]
      : isLate
        ? ["Record that time-out and sweep again: as it stands none of these is safe with the bus broken."]
        : isPauseTried
          ? [
              "None of these is safe with the bus broken, not even a pause. Shorten the time between readings, or ask for a larger supply.",
            ]
          : ["None of these is safe with the bus broken: let the cars pause (fallback 0)."]),
  ];
}

const sum = (values: readonly number[]): number => values.reduce((total, value) => total + value, 0);
