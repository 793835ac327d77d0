import {
  type JudgedTogether,
  judgeTogether,
  judgeTrace,
  type NamedTrace,
  study,
  type TracesView,
  timeToFallback,
  traceBoundsOf,
  traceJson,
  tracesView,
} from "@underfuse/engine";
import { GREAT_BRITAIN } from "@underfuse/knowledge";
import { Refusal } from "./exit-status.ts";
import { type LoadedJob, readSmall, visible } from "./load-job.ts";
import { readTrace } from "./read-trace.ts";
import type { Surroundings } from "./surroundings.ts";

export interface TraceFile {
  readonly file: string;
  readonly text: string;
}

/** Largest trace that is read: some four million rows of three lines. [bytes] */
const TRACE_BYTES = 200_000_000;

/** Texts of files that may be traces, each once. */
export async function traceFiles(
  paths: readonly string[],
  world: Surroundings,
): Promise<readonly TraceFile[]> {
  const files: TraceFile[] = [];
  for (const [index, file] of paths.entries()) {
    for (const other of paths.slice(0, index))
      if (await world.isSameFile(file, other))
        throw new Refusal(`${file} and ${other} are one file. Give each trace once.`);
    files.push({ file, text: await readSmall(file, world, TRACE_BYTES) });
  }
  return files;
}

export interface JudgedTraces {
  readonly verdict: JudgedTogether["verdict"];
  readonly view: TracesView;
  readonly traces: readonly NamedTrace[];
}

/**
 * Traces of files judged against one job, and what they prove together.
 *
 * @throws Refusal when a file cannot be read as a trace, or the job has no load manager.
 */
export function judgedTraces(
  path: string,
  { open, series, unread }: LoadedJob,
  given: { readonly files: readonly TraceFile[]; readonly timeOutS: number | null; readonly onIso: string },
): JudgedTraces {
  if (open.job.limiter === null)
    throw new Refusal(
      `${path} has no load manager yet. Enter it with its limit and fallback, then ask again.`,
    );
  const reads = given.files.map(({ file, text }) => {
    const read = readTrace(text);
    if (!read.ok) throw new Refusal(`${file}: ${visible(read.message)}. The file has not been changed.`);
    return { name: visible(file), trace: read.trace, remarks: read.remarks.map(visible) };
  });
  const studied = study(open, GREAT_BRITAIN, { onIso: given.onIso, series, unread });
  const bounds = traceBoundsOf(studied, given.timeOutS);
  const traces = reads.map((read): NamedTrace => ({ ...read, judged: judgeTrace(read.trace, bounds) }));
  return {
    verdict: judgeTogether(traces.map(({ judged }) => judged)).verdict,
    view: tracesView(traces, open.job, timeToFallback(studied, given.timeOutS).words),
    traces,
  };
}

/** A single trace keeps its own shape; several stand in a list beside what they prove together. */
export function tracesJson({ verdict, view, traces }: JudgedTraces): unknown {
  const { lines, settles, timeOut } = view;
  const each = traces.map(({ name, judged, remarks }) => ({
    name,
    ...(traceJson(judged, remarks) as object),
  }));
  return each.length === 1
    ? { ...each[0], timeOut, settles }
    : { verdict, timeOut, lines, settles, traces: each };
}
