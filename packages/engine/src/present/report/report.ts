/**
 * The report: one self-contained HTML file from view models. No script, no network, no clock; the same
 * assessment gives the same bytes.
 *
 * @module
 */
import type { Assessment, OptionKind } from "../../rules/index.ts";
import type { OptionNights } from "../../through-time/index.ts";
import {
  type AssessmentView,
  assessmentView,
  type MissingView,
  type OptionView,
} from "../assessment-view.ts";
import { escapeMarkup as text } from "../escape.ts";
import type { FindingView } from "../finding-view.ts";
import { drawnSupply, supplyDrawing, supplyOutline } from "../supply-drawing/index.ts";
import type { TracesView } from "../traces-view.ts";
import { DEFERENCE, VERDICTS } from "../words.ts";
import type { WorkingView } from "../working-view.ts";
import { chainSections, type ProvingViews } from "./chain-sections.ts";
import { disclosure, type Section } from "./html.ts";
import { type SimulationForReport, simulationSection } from "./simulation-section.ts";
import { STYLE } from "./style.ts";
import { traceSection } from "./trace-section.ts";

/** What came with a job besides the job. */
export interface ReportExtras {
  /** What was read on site. */
  readonly proving?: ProvingViews | null;
  /** What was recorded of the load manager. */
  readonly traces?: TracesView | null;
  readonly simulation?: SimulationForReport | null;
  /** Why the site was not run through time, and what to do about it. */
  readonly notSimulated?: string;
  /** What the options give the cars. */
  readonly nights?: ReadonlyMap<OptionKind, OptionNights>;
}

export function reportHtml(assessment: Assessment, extras: ReportExtras = {}): string {
  const { proving = null, traces = null, simulation = null, notSimulated, nights } = extras;
  const view = assessmentView(assessment, nights);
  const { tree, job } = assessment.study;
  const drawn = drawnSupply(tree, job.metering);
  const sections: readonly Section[] = [
    { id: "missing", title: "What to find out", body: missingSection(view) },
    { id: "findings", title: "Findings", body: findingsSection(view) },
    { id: "options", title: "Options", body: optionsSection(view) },
    { id: "demand", title: "Demand", body: demandSection(view) },
    {
      id: "supply",
      title: "The supply",
      body: [
        supplyDrawing(drawn, `Single-line diagram of the supply of ${job.title}`),
        disclosure("The drawing in words", outline(supplyOutline(drawn))),
      ].join("\n"),
    },
    ...chainSections(assessment, proving),
    ...(traces === null ? [] : [traceSection(traces)]),
    ...(simulation === null ? [] : [simulationSection(simulation)]),
    ...(notSimulated === undefined
      ? []
      : [{ id: "through-time", title: "Through time", body: `<p>Not simulated: ${text(notSimulated)}</p>` }]),
    { id: "assumptions", title: "Assumed facts", body: assumptionsSection(view) },
    { id: "unchecked", title: "Figures not yet checked", body: uncheckedSection(view) },
  ];
  return `<!doctype html>
<html lang="en-GB">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="color-scheme" content="light dark">
<title>${text(view.jobTitle)}: assessment</title>
<style>
${STYLE}
</style>
</head>
<body>
<header>
<p class="soft">Load-managed charge point · assessed on ${text(view.onIso)}</p>
<h1>${text(view.jobTitle)}</h1>
</header>
<main>
${headline(view)}
<nav aria-label="Sections"><ul>${sections.map(({ id, title }) => `<li><a href="#${id}">${text(title)}</a></li>`).join("")}</ul></nav>
${sections.map(({ id, title, body }) => `<section id="${id}">\n<h2>${text(title)}</h2>\n${body}\n</section>`).join("\n")}
</main>
<footer><p>${text(DEFERENCE)}</p></footer>
</body>
</html>
`;
}

function headline({ headline: { tone, title, sentences }, counts }: AssessmentView): string {
  const tally = [
    [counts.fail, VERDICTS.fail],
    [counts.cannotTell, VERDICTS["cannot-tell"]],
    [counts.pass, VERDICTS.pass],
    [counts.notApplicable, VERDICTS["not-applicable"]],
  ] as const;
  const plural = {
    fails: "fail",
    passes: "pass",
    "does not apply": "do not apply",
    "cannot be told": "cannot be told",
  };
  return `<div class="headline ${tone}">
<strong>${text(title)}</strong>
${sentences.map((sentence) => `<p>${text(sentence)}</p>`).join("\n")}
<ul class="counts">${tally.map(([number, { mark, word }]) => `<li><span class="mark" aria-hidden="true">${mark}</span>${number} ${number === 1 ? word : plural[word as keyof typeof plural]}</li>`).join("")}</ul>
</div>`;
}

function missingSection({ missingNow, missingLater }: AssessmentView): string {
  const list = (items: readonly MissingView[]): string =>
    `<ol class="ask">${items.map((item) => `<li><b>${text(capitalised(item.label))}</b>${text(item.ask)} <span class="soft">${text(item.settles)} <code>${text(item.path)}</code></span></li>`).join("\n")}</ol>`;
  return [
    missingNow.length === 0
      ? "<p>Nothing that bears on the design is missing.</p>"
      : `<p>Before the work is settled, most valuable first:</p>\n${list(missingNow)}`,
    missingLater.length === 0
      ? ""
      : disclosure(`On the day and afterwards: ${missingLater.length} more`, list(missingLater)),
  ].join("\n");
}

const findingsSection = ({ stages }: AssessmentView): string =>
  stages
    .map(({ title, findings }) => `<h3>${text(title)}</h3>\n${findings.map(findingDetails).join("\n")}`)
    .join("\n");

function findingDetails(view: FindingView): string {
  const block = (title: string, lines: readonly string[]): string =>
    lines.length === 0
      ? ""
      : `<h4>${text(title)}</h4>${lines.map((line) => `<p>${text(line)}</p>`).join("")}`;
  return `<details class="${view.verdict}" id="${text(view.id)}">
<summary><span class="mark" title="${text(view.word)}">${view.mark}</span><span><span class="what">${text(view.title)}<span class="soft"> · ${text(view.word)}</span></span>${view.action === null ? "" : `<span class="action">${text(view.action)}: </span>`}${text(view.sentence)}</span></summary>
<div class="body">
${view.comparison === null ? "" : `<p class="equation">${text(view.comparison)}</p>`}
${view.turning === null ? "" : `<p>${text(view.turning)}</p>`}
${block("Missing", view.missing)}
${view.working.length === 0 ? "" : `<h4>Working</h4>${workingList(view.working)}`}
${block("Decided by", view.facts)}
${block("Rests on assumed facts", view.assumed)}
${block("Rests on figures not yet checked", view.unchecked)}
${block("Source", [view.source])}
<p class="soft">Place in the job: <code>${text(view.path)}</code></p>
</div>
</details>`;
}

const workingList = (lines: readonly WorkingView[]): string =>
  `<ul class="working">${lines.map(workingItem).join("")}</ul>`;

const workingItem = (line: WorkingView): string => {
  const small = (words: string | null): string =>
    words === null || words === "" ? "" : ` <span class="soft">${text(words)}</span>`;
  const repeated = line.isRepeated ? "worked out above" : null;
  return `<li><span class="equation">${text(line.equation)}</span> ${text(line.label)}${line.formula === null ? "" : `<span class="formula">= ${text(line.formula)}</span>`}${small(repeated)}${small(line.chosenBy && `By ${line.chosenBy}.`)}${small(line.origin)}${line.inputs.length === 0 ? "" : `<ul>${line.inputs.map(workingItem).join("")}</ul>`}</li>`;
};

const optionsSection = ({ options }: AssessmentView): string =>
  options.length === 0
    ? "<p>The job has no charge point.</p>"
    : `<ul class="options">${options.map(optionItem).join("\n")}</ul>`;

const optionItem = ({ title, rate, demand, route, settings, reason, nights }: OptionView): string =>
  `<li><h3>${text(title)}</h3><dl><dt>Rate</dt><dd>${text(rate)}</dd><dt>Demand</dt><dd>${text(demand)}</dd><dt>Operator</dt><dd>${text(route)}</dd>${settings === null ? "" : `<dt>Settings</dt><dd>${text(settings)}</dd>`}</dl><p>${text(reason)}</p>${nights === null ? "" : `<p>${text(nights)}</p>`}</li>`;

const demandSection = ({ demand }: AssessmentView): string =>
  demand
    .map(
      ({ line, existing, unmanaged, managed, evidence }) =>
        `<h3>${text(line)}</h3><dl><dt>Building alone</dt><dd>${text(existing)}</dd><dt>All, unmanaged</dt><dd>${text(unmanaged)}</dd><dt>All, managed</dt><dd>${text(managed)}</dd></dl><p>${text(evidence)}</p>`,
    )
    .join("\n");

const assumptionsSection = ({ assumptions }: AssessmentView): string =>
  assumptions.length === 0
    ? "<p>No verdict rests on an assumed fact.</p>"
    : shared(
        "A verdict is no better than what it rests on. Measure or read these and it stands by itself:",
        assumptions.map(({ fact, findings }) => [fact, findings]),
      );

const uncheckedSection = ({ unchecked }: AssessmentView): string =>
  unchecked.length === 0
    ? "<p>Every figure used has been seen in its source or a quotation of it.</p>"
    : shared(
        "These figures and clauses are recalled, second-hand, common practice, or this project's own. Check them against the book before relying on a verdict that rests on them:",
        unchecked.map(({ figure, findings }) => [figure, findings]),
      );

const shared = (lead: string, lines: readonly (readonly [string, readonly string[]])[]): string =>
  `<p>${text(lead)}</p><ul>${lines.map(([line, ids]) => `<li>${text(line)} <span class="soft">${ids.length === 1 ? "1 finding" : `${ids.length} findings`}</span></li>`).join("")}</ul>`;

const outline = (lines: ReturnType<typeof supplyOutline>): string =>
  `<ul class="outline">${lines.map(({ depth, text: line }) => `<li style="padding-left:${Math.min(depth, 12)}rem">${text(line)}</li>`).join("")}</ul>`;

const capitalised = (words: string): string => words.charAt(0).toUpperCase() + words.slice(1);
