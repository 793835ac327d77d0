import type { LocatedJob } from "../job/index.ts";
import { type JudgedTrace, judgeTogether, settledFacts, type Trace } from "../proving/index.ts";
import type { Line } from "../quantities/index.ts";
import { type DrawnExcursion, drawnExcursion } from "./excursion-drawing.ts";
import { type SettledView, settledView } from "./settled-words.ts";
import { claimSentence, type TraceView, traceView } from "./trace-view.ts";
import { CLAIM_TITLES, TRACE_VERDICT_WORDS } from "./trace-words.ts";

/** A trace that was read and judged. */
export interface NamedTrace {
  readonly name: string;
  readonly trace: Trace;
  readonly judged: JudgedTrace;
  /** What the reader of the file noticed and did. */
  readonly remarks: readonly string[];
}

/** One statement from all traces of a job, and each of them by itself. */
export interface TracesView {
  readonly tone: "pass" | "fail" | "unknown";
  readonly title: string;
  /** By what the fallback was judged. */
  readonly timeOut: string;
  readonly lines: readonly {
    readonly line: Line;
    readonly word: string;
    readonly claims: readonly {
      readonly mark: string;
      readonly tone: "pass" | "fail" | "unknown" | "none";
      readonly title: string;
      readonly sentence: string;
      readonly from: string;
    }[];
  }[];
  readonly settles: readonly SettledView[];
  readonly traces: readonly { readonly name: string; readonly view: TraceView }[];
  /** The excursion with the most ampere-seconds over the limit; null where nothing was over. */
  readonly worst: DrawnExcursion | null;
}

const TONES = { proved: "pass", failed: "fail", "cannot-tell": "unknown", "not-applicable": "none" } as const;
const TITLES = {
  proved: "Proved: on every line the load manager acted in time and failed safe.",
  "cannot-tell": "Not proved yet: something cannot be told from these traces.",
  "not-applicable": "Not proved yet: something cannot be told from these traces.",
} as const;

/**
 * @param traces At least one, judged against the same bounds
 * @param job Whose facts the traces may settle; it is not changed
 * @param timeOut By what the fallback was judged, as a sentence
 */
export function tracesView(
  traces: readonly NamedTrace[],
  job: Pick<LocatedJob, "limiter">,
  timeOut: string,
): TracesView {
  const judged = traces.map((each) => each.judged);
  const names = traces.map(({ name }) => name);
  const { verdict, lines } = judgeTogether(judged);
  const failed = lines.filter((line) => line.verdict === "failed").map(({ line }) => line);
  const tone = TONES[verdict];
  return {
    tone: tone === "none" ? "unknown" : tone,
    title: verdict === "failed" ? `Failed on ${failed.join(", ")}.` : TITLES[verdict],
    timeOut,
    lines: lines.map(({ line, verdict, claims }) => ({
      line,
      word: TRACE_VERDICT_WORDS[verdict].word,
      claims: claims.map((claim) => ({
        mark: TRACE_VERDICT_WORDS[claim.verdict].mark,
        tone: TONES[claim.verdict],
        title: CLAIM_TITLES[claim.claim],
        sentence: claimSentence(claim),
        from: names[claim.trace] ?? "",
      })),
    })),
    settles: settledView(settledFacts(judged), job, names),
    traces: traces.map(({ name, judged: each, remarks }) => ({ name, view: traceView(each, remarks) })),
    worst: worstDrawn(traces),
  };
}

function worstDrawn(traces: readonly NamedTrace[]): DrawnExcursion | null {
  const all = traces.flatMap(({ trace, judged: { lines, bounds } }) =>
    lines.flatMap(({ line, largest }) =>
      largest === null || bounds.limitA === null
        ? []
        : [{ trace, line, excursion: largest, limitA: bounds.limitA }],
    ),
  );
  const [first, ...others] = all;
  if (first === undefined) return null;
  const worst = others.reduce(
    (most, each) => (each.excursion.overAs > most.excursion.overAs ? each : most),
    first,
  );
  return drawnExcursion(worst.trace, worst);
}
