import type { Claim, Excursion, FallbackTrial, JudgedLine, JudgedTrace, Recovery } from "../proving/index.ts";
import type { Datum } from "../rules/index.ts";
import { durationWords, fill, withUnit } from "./format.ts";
import {
  CLAIM_SENTENCES,
  CLAIM_TITLES,
  EVENT_WORDS,
  OUTCOME_WORDS,
  TRACE_VERDICT_WORDS,
} from "./trace-words.ts";

type Tone = "pass" | "fail" | "unknown";

/** A judged trace as it is shown: everything decided, nothing drawn. */
export interface TraceView {
  readonly tone: Tone;
  readonly title: string;
  readonly against: string;
  readonly lines: readonly TraceLineView[];
  /** What the reader and the judge noticed of the trace itself. */
  readonly remarks: readonly string[];
}

export interface TraceLineView {
  readonly line: string;
  readonly tone: Tone | "none";
  readonly word: string;
  readonly claims: readonly {
    readonly mark: string;
    readonly tone: Tone | "none";
    readonly title: string;
    readonly sentence: string;
  }[];
  /** Excursions, the earliest first, and how many more there are. */
  readonly excursions: readonly string[];
  readonly moreExcursions: number;
  readonly extremes: readonly string[];
  readonly recoveries: readonly string[];
  readonly moreRecoveries: number;
  readonly fallbacks: readonly string[];
}

const SHOWN = 12;
const TONES = { proved: "pass", failed: "fail", "cannot-tell": "unknown", "not-applicable": "none" } as const;

/** @param readingRemarks What the reader of the file noticed and did. */
export function traceView(judged: JudgedTrace, readingRemarks: readonly string[] = []): TraceView {
  const { verdict, lines, bounds, durationS, strayLines } = judged;
  const failed = lines.filter((line) => line.verdict === "failed").map(({ line }) => line);
  const tone = TONES[verdict];
  return {
    tone: tone === "none" ? "unknown" : tone,
    title:
      verdict === "failed"
        ? `Failed on ${failed.join(", ")}.`
        : verdict === "proved"
          ? "Proved: on every line the load manager acted in time and failed safe."
          : "Not proved yet: something cannot be told from this trace.",
    against: [
      `${durationWords(durationS, "down")} recorded.`,
      bounds.limitA === null ? "Limit not known." : `Limit ${amps(bounds.limitA)} per line.`,
      bounds.fallbackA === null
        ? "Fallback not known."
        : `Fallback ${amps(bounds.fallbackA)} per charge point${bounds.timeOutS === null ? "" : ` within ${durationWords(bounds.timeOutS)}`}.`,
      bounds.fuseRatingA === null ? "Main fuse not known." : `Main fuse ${amps(bounds.fuseRatingA)}.`,
    ].join(" "),
    lines: lines.map(lineView),
    remarks: [...readingRemarks, ...judgeRemarks(lines, strayLines)],
  };
}

function judgeRemarks(lines: readonly JudgedLine[], strayLines: readonly string[]): readonly string[] {
  return [
    ...strayLines.map(
      (line) => `${line} is in the trace, but the supply of this job has no ${line}; not judged.`,
    ),
    ...lines.flatMap(({ line, sampling }) =>
      sampling !== null && sampling.carAboveCount > 0
        ? [
            `On ${line} the charge points drew more than the supply showed, ${sampling.carAboveCount === 1 ? "once" : `${sampling.carAboveCount} times`}. If nothing generates here that cannot be: the supply was not recorded on that line, or its transformer or ratio is wrong, and nothing is proved.`,
          ]
        : [],
    ),
    ...lines.flatMap(({ line, sampling }) =>
      sampling !== null && sampling.negativeCount > 0
        ? [
            `${line} is below zero ${sampling.negativeCount} times: taken as power fed back. If nothing generates here, its current transformer is the wrong way round and nothing is proved.`,
          ]
        : [],
    ),
  ];
}

function lineView(judged: JudgedLine): TraceLineView {
  const { line, verdict, claims, excursions, longest, largest, recoveries, fallbacks } = judged;
  return {
    line,
    tone: TONES[verdict],
    word: TRACE_VERDICT_WORDS[verdict].word,
    claims: claims.map((item) => ({
      mark: TRACE_VERDICT_WORDS[item.verdict].mark,
      tone: TONES[item.verdict],
      title: CLAIM_TITLES[item.claim],
      sentence: claimSentence(item),
    })),
    excursions: excursions.slice(0, SHOWN).map(excursionWords),
    moreExcursions: Math.max(0, excursions.length - SHOWN),
    extremes:
      longest === null || largest === null || excursions.length < 2
        ? []
        : [`longest: ${excursionWords(longest)}`, `largest: ${excursionWords(largest)}`],
    recoveries: recoveries.slice(0, SHOWN).map(recoveryWords),
    moreRecoveries: Math.max(0, recoveries.length - SHOWN),
    fallbacks: fallbacks.map(fallbackWords),
  };
}

/** The sentence of a claim, its numbers rounded never to the generous side. */
export const claimSentence = ({ reason, data }: Claim): string =>
  fill(
    CLAIM_SENTENCES[reason],
    Object.fromEntries(Object.entries(data).map(([name, value]) => [name, shown(name, value)])),
  );

function shown(name: string, value: number): Datum {
  const rounding = name.startsWith("least")
    ? "down"
    : /^(most|peak|after|rose[^A]*A)/.test(name)
      ? "up"
      : "nearest";
  if (name.endsWith("Count")) return String(value);
  if (name.endsWith("Share")) return { value: 100 * value, unit: "%", decimals: 0, rounding: "up" };
  return { value, unit: name.endsWith("S") ? "s" : "A", decimals: 2, rounding };
}

const trimmed = (value: number): number => (Math.abs(value - Math.round(value)) < 0.005 ? 0 : 2);
const seconds = (value: number): string => withUnit(value, "s", trimmed(value));
const amps = (value: number): string => withUnit(value, "A", trimmed(value));

const excursionWords = ({ startS, heldS, peakA, overAs, isUnfinished }: Excursion): string =>
  `at ${seconds(startS)} for ${seconds(heldS)}${isUnfinished ? " and still over at the end" : ""}, peak ${withUnit(peakA, "A", 1, "up")}, ${withUnit(overAs, "A·s", 0, "up")} above`;

function recoveryWords({ startS, after, sinceEventS, lengthS, excursions, isUnfinished }: Recovery): string {
  const [leastS, mostS] = lengthS;
  const cause =
    after === null ? "nothing noted before" : `${EVENT_WORDS[after.what]} at ${seconds(after.atS)}`;
  if (isUnfinished)
    return `${cause}: over from ${seconds(startS)} and not back under when the recording ends`;
  const times = excursions.length > 1 ? `, over ${excursions.length} times meanwhile` : "";
  const since = sinceEventS === null ? "" : `, ${seconds(sinceEventS)} after it was noted`;
  const length = Number.isFinite(mostS)
    ? `${seconds(leastS)} to ${seconds(mostS)}`
    : `${seconds(leastS)} or more`;
  return `${cause}: back under after ${length}${since}${times}`;
}

const fallbackWords = ({ what, atS, drawnA, fellS, outcome }: FallbackTrial): string =>
  [
    `${EVENT_WORDS[what]} at ${seconds(atS)}`,
    ...(Number.isNaN(drawnA) ? [] : [`${withUnit(drawnA, "A", 1)} drawn`]),
    ...(fellS === null || outcome === "not-drawing"
      ? []
      : [`at the fallback after ${seconds(fellS[0])} to ${seconds(fellS[1])}`]),
    OUTCOME_WORDS[outcome],
  ].join(", ");
