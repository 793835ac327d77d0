import { escapeMarkup as text } from "../escape.ts";
import { excursionDrawing } from "../excursion-drawing.ts";
import type { TraceView } from "../trace-view.ts";
import type { TracesView } from "../traces-view.ts";
import { disclosure, list, type Section, table } from "./html.ts";

/** The load manager as recorded traces prove it: one statement, what it settles, and each trace. */
export function traceSection(view: TracesView): Section {
  const isOne = view.traces.length === 1;
  return {
    id: "traces",
    title: "What the load manager did",
    body: [
      `<p><b>${text(view.title)}</b></p>`,
      `<p>${text(view.timeOut)}</p>`,
      ...view.lines.map(
        ({ line, word, claims }) =>
          `<h3>${text(`${line}: ${word}`)}</h3>${table(
            isOne ? ["", "Claim", "What was seen"] : ["", "Claim", "What was seen", "In"],
            claims.map(({ mark, title, sentence, from }) => [
              mark,
              title,
              sentence,
              ...(isOne ? [] : [from]),
            ]),
          )}`,
      ),
      ...(view.settles.length === 0
        ? []
        : [
            `<h3>Facts this settles</h3>${list(view.settles.map(({ path, sentence }) => `${sentence} (${path})`))}`,
          ]),
      ...(view.worst === null
        ? []
        : [
            `<h3>The worst excursion</h3>${excursionDrawing(view.worst)}<p class="soft">${text(view.worst.title)}</p>`,
          ]),
      ...view.traces.map(({ name, view: each }) => disclosure(name, details(each))),
    ].join("\n"),
  };
}

const details = (view: TraceView): string =>
  [
    `<p>${text(view.title)} ${text(view.against)}</p>`,
    ...view.lines.map((line) => {
      const parts = [
        ...line.excursions,
        ...(line.moreExcursions > 0 ? [`and ${line.moreExcursions} more`] : []),
        ...line.extremes,
        ...line.recoveries,
        ...line.fallbacks,
      ];
      return `<h4>${text(line.line)}</h4>${parts.length === 0 ? "<p>Nothing over the limit, nothing lost.</p>" : list(parts)}`;
    }),
    ...(view.remarks.length === 0 ? [] : [`<h4>About the trace</h4>${list(view.remarks)}`]),
  ].join("\n");
