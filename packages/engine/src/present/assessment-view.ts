import type { DemandEvidence } from "../demand/index.ts";
import {
  type Assessment,
  type Finding,
  type MissingFact,
  OPTION_REASONS,
  type Option,
  type OptionKind,
  STAGES,
  type Stage,
} from "../rules/index.ts";
import type { OptionNights } from "../through-time/index.ts";
import { isKnown, type Quantity } from "../worked/index.ts";
import { guideAt } from "./fact-guide.ts";
import { type FindingView, findingView } from "./finding-view.ts";
import { datumText, durationWords, fill, withUnit } from "./format.ts";
import { OPTIONS, ROUTES, STAGE_TITLES } from "./words.ts";

export interface StageView {
  readonly stage: Stage;
  readonly title: string;
  readonly findings: readonly FindingView[];
}

/** Something to find out, with how, and what it would settle. */
export interface MissingView {
  readonly label: string;
  readonly path: string;
  readonly ask: string;
  readonly settles: string;
}

export interface OptionView {
  readonly title: string;
  readonly rate: string;
  readonly demand: string;
  readonly route: string;
  /** Limit and fallback, of the managed option. */
  readonly settings: string | null;
  readonly reason: string;
  /** What it gives the cars, night by night; null where it was not simulated. */
  readonly nights: string | null;
}

/** How the demand of one line was arrived at. */
export interface DemandView {
  readonly line: string;
  readonly existing: string;
  readonly unmanaged: string;
  readonly managed: string;
  readonly evidence: string;
}

/** Everything an assessment shows, decided before anything is drawn. */
export interface AssessmentView {
  readonly jobTitle: string;
  readonly jobId: string;
  readonly onIso: string;
  readonly headline: {
    readonly tone: "stop" | "fail" | "unknown" | "pass";
    readonly title: string;
    readonly sentences: readonly string[];
  };
  readonly counts: Readonly<Record<"pass" | "fail" | "cannotTell" | "notApplicable", number>>;
  readonly stages: readonly StageView[];
  /** Wanted before work is settled, most valuable first. */
  readonly missingNow: readonly MissingView[];
  /** Measured or done on the day and afterwards. */
  readonly missingLater: readonly MissingView[];
  readonly options: readonly OptionView[];
  readonly demand: readonly DemandView[];
  /** Facts that were assumed, each with the findings that rest on it. */
  readonly assumptions: readonly { readonly fact: string; readonly findings: readonly string[] }[];
  /** Figures and clauses nobody has read in their source, each with the findings that rest on it. */
  readonly unchecked: readonly { readonly figure: string; readonly findings: readonly string[] }[];
}

const PLANNING: readonly Stage[] = ["survey", "decide", "size"];

/** @param nights What the options give the cars, where they were simulated. */
export function assessmentView(
  assessment: Assessment,
  nights: ReadonlyMap<OptionKind, OptionNights> = new Map(),
): AssessmentView {
  const { study, findings, missing, options } = assessment;
  const views = findings.map((finding) => findingView(finding, study));
  const isPlanned = planningIds(findings);
  const titles = new Map(findings.map(({ id, title }) => [id, title.toLowerCase()]));
  const missingViews = missing.map((item) => ({ item, view: missingView(item, titles) }));
  const isNow = ({ item }: { item: MissingFact }) =>
    [...item.settles, ...item.helps].some((id) => isPlanned.has(id));
  const missingNow = missingViews.filter(isNow).map(({ view }) => view);
  return {
    jobTitle: study.job.title,
    jobId: study.job.id,
    onIso: study.inputs.onIso,
    headline: headline(assessment, views, missingNow),
    counts: {
      pass: count(views, "pass"),
      fail: count(views, "fail"),
      cannotTell: count(views, "cannot-tell"),
      notApplicable: count(views, "not-applicable"),
    },
    stages: STAGES.map((stage) => ({
      stage,
      title: STAGE_TITLES[stage],
      findings: views.filter((view) => view.stage === stage).sort((a, b) => urgency(a) - urgency(b)),
    })).filter(({ findings: inStage }) => inStage.length > 0),
    missingNow,
    missingLater: missingViews.filter((entry) => !isNow(entry)).map(({ view }) => view),
    options: options.map((option) => optionView(option, nights.get(option.kind))),
    demand: demandViews(assessment),
    assumptions: gathered(views, (view) => view.assumed).map(([fact, ids]) => ({ fact, findings: ids })),
    unchecked: gathered(views, (view) => view.unchecked).map(([figure, ids]) => ({ figure, findings: ids })),
  };
}

/** What wants attention first stands first: failures, what cannot be told, cautions, passes, the rest. */
const urgency = ({ verdict, action }: FindingView): number =>
  ({ fail: 0, "cannot-tell": 1, pass: action === null ? 3 : 2, "not-applicable": 4 })[verdict];

const count = (views: readonly FindingView[], verdict: FindingView["verdict"]): number =>
  views.filter((view) => view.verdict === verdict).length;

const planningIds = (findings: readonly Finding[]): ReadonlySet<string> =>
  new Set(
    findings
      .filter(({ stage }) => PLANNING.includes(stage))
      .filter(({ id }) => !id.endsWith("-measured"))
      .map(({ id }) => id),
  );

function headline(
  { isCovered }: Assessment,
  views: readonly FindingView[],
  missingNow: readonly MissingView[],
): AssessmentView["headline"] {
  const failed = views.filter((view) => view.verdict === "fail");
  const open = views.filter((view) => view.verdict === "cannot-tell");
  const stop = views.find((view) => view.isUrgent);
  const next = missingNow[0];
  const route = views.find((view) => view.id.startsWith("operator-route/"));
  const leftOut = open.filter((view) => view.id.startsWith("recording-used/"));
  const sentences = [
    ...(route === undefined || route === stop ? [] : [route.sentence]),
    ...leftOut.map((view) => view.sentence),
    ...(next === undefined ? [] : [`Most worth finding out next: ${next.label}.`]),
  ];
  if (!isCovered) {
    return {
      tone: "unknown",
      title: "No rules are held for this jurisdiction yet; nothing was judged.",
      sentences: [],
    };
  }
  if (stop !== undefined) return { tone: "stop", title: stop.sentence, sentences };
  if (failed.length > 0) {
    const names = [...new Set(failed.map((view) => view.title.toLowerCase()))];
    const first = failed[0];
    return {
      tone: "fail",
      title: `${failed.length === 1 ? "One check fails" : `${failed.length} checks fail`}: ${names.join("; ")}.`,
      sentences: [...new Set([...(first === undefined ? [] : [first.sentence]), ...sentences])],
    };
  }
  if (open.length > 0) {
    return {
      tone: "unknown",
      title: `Nothing fails, but ${open.length === 1 ? "one check" : `${open.length} checks`} cannot be made yet.`,
      sentences,
    };
  }
  return { tone: "pass", title: "Every check that applies passes.", sentences };
}

/** What to do about something that no place in the job holds. */
const ASK: Readonly<Partial<Record<MissingFact["what"], string>>> = {
  figure: "No table held here has it. Ask the maker, or choose something that has.",
  decision: "No measurement settles it. A competent designer does, from the book in force.",
};

function missingView(item: MissingFact, titles: ReadonlyMap<string, string>): MissingView {
  const titlesOf = (ids: readonly string[]) => [...new Set(ids.map((id) => titles.get(id) ?? id))];
  const [settles, helps] = [titlesOf(item.settles), titlesOf(item.helps)];
  return {
    label: item.label,
    path: item.path,
    ask: ASK[item.what] ?? guideAt(item.path)?.ask ?? "",
    settles: settles.length > 0 ? `Decides: ${settles.join("; ")}.` : `Helps decide: ${helps.join("; ")}.`,
  };
}

const amps = (quantity: Quantity | null, rounding: "up" | "down" = "up"): string =>
  quantity === null || !isKnown(quantity)
    ? "not known"
    : datumText({ value: quantity.value, unit: "A", decimals: 1, rounding });

function optionView(option: Option, nights: OptionNights | undefined): OptionView {
  const rate = option.chargePointA;
  const isManaged = option.limit !== null && option.fallback !== null;
  return {
    title: OPTIONS[option.kind],
    rate: rate === null || !isKnown(rate) ? "–" : withUnit(rate.value, "A", 0, "down"),
    demand: `${amps(option.demand)} on ${option.line}`,
    route: ROUTES[option.route],
    settings: isManaged
      ? `limit ${amps(option.limit, "down")}, fallback ${amps(option.fallback, "down")} in all`
      : null,
    reason: fill(OPTION_REASONS[option.reason], option.data),
    nights: nights === undefined ? null : nightsSentence(nights),
  };
}

function nightsSentence({ days, sessions, kwhPerNight, fullShare, overS, ...more }: OptionNights): string {
  const { recordedDays, intervalS, isGiven, timeOut } = more;
  const means = intervalS > 60 ? ` of ${withUnit(intervalS / 60, "min", 0)} means, which hide peaks` : "";
  const from =
    recordedDays === null
      ? "a building drawn at random, one draw of many and no proof"
      : `${recordedDays} recorded ${recordedDays === 1 ? "day" : "days"}${means}${isGiven ? ", given beside the job, whose own demand stands above" : ""}`;
  const over = overS === null ? "" : `; over the supply's limit for ${durationWords(overS)} in all`;
  return `Energy per night ${withUnit(kwhPerNight, "kWh", 1)}, mornings full ${withUnit(100 * fullShare, "%", 0, "down")} (${sessions} sessions in ${days} days simulated, from ${from})${over}.${timeOut === undefined ? "" : timeOutSentence(timeOut.mostS)}`;
}

const timeOutSentence = (mostS: number | null): string =>
  mostS === null
    ? " No time-out brings its fallback in time with the delays taken here: shorten the time between readings and the command's."
    : ` With the delays taken here its fallback comes in time with a time-out of ${durationWords(mostS)} or less.`;

function demandViews({ study }: Assessment): readonly DemandView[] {
  return study.demand.map(({ line, existing, unmanaged, managed }) => {
    const band = (low: Quantity, high: Quantity): string => {
      const [from, to] = [amps(low, "down"), amps(high, "up")];
      return from === to || !isKnown(high) ? to : `${from} to ${to}`;
    };
    const { used, because, others } = existing;
    const alternatives = others.map((other) => `${evidenceName(other)} gives ${band(other.low, other.high)}`);
    return {
      line,
      existing: band(used.low, used.high),
      unmanaged: band(unmanaged.low, unmanaged.high),
      managed: managed === null ? "no load manager" : band(managed.low, managed.high),
      evidence: [
        `From ${evidenceName(used)}: ${CHOICE_REASONS[because]}.`,
        ...(alternatives.length === 0 ? [] : [`Also weighed: ${alternatives.join("; ")}.`]),
      ].join(" "),
    };
  });
}

const CHOICE_REASONS = {
  "longest-recording": "the longest there is, and measured goes before listed",
  "recordings-too-short": "no recording is long enough, or none could be read",
  "no-recording": "there is no recording",
} as const;

function evidenceName({ kind, id, days }: DemandEvidence): string {
  if (kind === "circuit-list") return "the list of circuits";
  const length =
    days === null || !isKnown(days)
      ? ""
      : ` over ${datumText({ value: days.value, unit: "days", decimals: 1, rounding: "down" })}`;
  return `the recording "${id}"${length}`;
}

/** Lines that several findings share, each with the findings that carry it, most shared first. */
function gathered(
  views: readonly FindingView[],
  linesOf: (view: FindingView) => readonly string[],
): readonly (readonly [string, readonly string[]])[] {
  const carriers = new Map<string, string[]>();
  for (const view of views) {
    for (const line of linesOf(view)) carriers.set(line, [...(carriers.get(line) ?? []), view.id]);
  }
  return [...carriers].sort(([, a], [, b]) => b.length - a.length);
}
