import type { TracesView, TraceView } from "@underfuse/engine";
import { createColors } from "picocolors";
import { wrapped } from "./print.ts";

const TONES = { pass: "green", fail: "red", unknown: "yellow", none: "dim" } as const;
const INDENT = "    ";

/** Judged traces in a terminal: one statement, what it settles, and each trace where there are several. */
export function tracesText(view: TracesView, isColourful: boolean): string {
  const colours = createColors(isColourful);
  const [only] = view.traces.length === 1 ? view.traces : [];
  const settles =
    view.settles.length === 0
      ? []
      : [
          "",
          colours.bold("Facts this settles, to be entered by you"),
          ...view.settles.flatMap(({ path, sentence }) => [
            wrapped(sentence, "  "),
            colours.dim(wrapped(path, "  ")),
          ]),
        ];
  if (only !== undefined)
    return [traceText(only.view, isColourful), "", wrapped(view.timeOut), ...settles].join("\n");
  return [
    colours[TONES[view.tone]](wrapped(view.title)),
    wrapped(view.timeOut),
    ...view.lines.flatMap(({ line, word, claims }) => [
      "",
      colours.bold(`${line}: ${word}`),
      ...claims.map(
        ({ mark, tone, title, sentence, from }) =>
          colours[TONES[tone]](mark) + wrapped(`${title}: ${sentence} (${from})`, INDENT).slice(mark.length),
      ),
    ]),
    ...settles,
    ...view.traces.flatMap(({ name, view: each }) => [
      "",
      colours.bold(wrapped(`── ${name}`)),
      traceText(each, isColourful),
    ]),
  ].join("\n");
}

/** A judged trace in a terminal, line by line, of at most eighty columns. */
function traceText(view: TraceView, isColourful: boolean): string {
  const colours = createColors(isColourful);
  const list = (title: string, items: readonly string[], more = 0): readonly string[] =>
    items.length === 0
      ? []
      : [
          colours.dim(`  ${title}`),
          ...items.map((item) => wrapped(item, INDENT)),
          ...(more > 0 ? [`${INDENT}… and ${more} more: --json has them all`] : []),
        ];
  return [
    colours[TONES[view.tone]](wrapped(view.title)),
    wrapped(view.against),
    ...view.lines.flatMap((line) => [
      "",
      colours.bold(`${line.line}: ${line.word}`),
      ...line.claims.map(
        ({ mark, tone, title, sentence }) =>
          colours[TONES[tone]](mark) + wrapped(`${title}: ${sentence}`, INDENT).slice(mark.length),
      ),
      ...list("Over the limit", [...line.excursions], line.moreExcursions),
      ...list("Of these", line.extremes),
      ...list("Coming back", line.recoveries, line.moreRecoveries),
      ...list("Falling back", line.fallbacks),
    ]),
    ...(view.remarks.length === 0
      ? []
      : ["", colours.bold("About the trace"), ...view.remarks.map((remark) => wrapped(remark, "  "))]),
  ].join("\n");
}
