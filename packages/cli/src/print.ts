import type { AssessmentView, FindingView, MissingView, OptionView, WorkingView } from "@underfuse/engine";
import { createColors } from "picocolors";

const WIDTH = 80;

type Colours = ReturnType<typeof createColors>;
const tones = (colours: Colours) =>
  ({
    fail: colours.red,
    "cannot-tell": colours.yellow,
    pass: colours.green,
    "not-applicable": colours.dim,
  }) as const;

/** What a person sees in a terminal: plain tables of at most eighty columns. */
export class Printer {
  readonly #colours: Colours;
  constructor(isColourful: boolean) {
    this.#colours = createColors(isColourful);
  }

  assessment(view: AssessmentView): string {
    const { headline, counts, stages } = view;
    return [
      this.#colours.bold(wrapped(view.jobTitle)),
      this.#tone(headline.tone)(wrapped(headline.title)),
      ...headline.sentences.map((sentence) => wrapped(sentence)),
      "",
      `${counts.fail} fail · ${counts.cannotTell} cannot be told · ${counts.pass} pass · ${counts.notApplicable} do not apply`,
      ...stages.flatMap(({ title, findings }) => ["", this.#colours.bold(title), this.findings(findings)]),
      "",
      this.#colours.bold("What to find out first"),
      this.missing(view.missingNow.slice(0, 5)),
      ...(view.missingLater.length > 0
        ? [`… and ${view.missingLater.length} more on the day and afterwards: underfuse missing JOB`]
        : []),
      "",
      this.#colours.bold("Options"),
      this.options(view.options),
      ...(view.assumptions.length > 0
        ? [
            "",
            wrapped(
              `${view.assumptions.length} assumed facts and ${view.unchecked.length} figures not yet checked stand under these verdicts: see the report, or underfuse explain JOB FINDING.`,
            ),
          ]
        : []),
    ].join("\n");
  }

  findings(findings: readonly FindingView[]): string {
    const shownFindings = findings.filter(({ verdict }) => verdict !== "not-applicable");
    const rest = findings.length - shownFindings.length;
    return [
      ...shownFindings.map((view) => {
        const words = `${view.action === null ? "" : `${view.action.toUpperCase()}: `}${view.sentence}`;
        return [
          tones(this.#colours)[view.verdict](view.mark) + hanging(words, view.mark.length),
          this.#colours.dim(INDENT + view.id),
        ].join("\n");
      }),
      ...(rest > 0 ? [this.#colours.dim(`–   ${rest} more ${rest === 1 ? "does" : "do"} not apply`)] : []),
    ].join("\n");
  }

  missing(items: readonly MissingView[]): string {
    if (items.length === 0) return "Nothing is missing.";
    return items
      .map(({ label, ask, settles, path }, index) => {
        const number = `${index + 1}`;
        return [
          number + this.#colours.bold(hanging(label, number.length)),
          wrapped(`${ask} ${settles}`, INDENT),
          this.#colours.dim(INDENT + path),
        ].join("\n");
      })
      .join("\n");
  }

  options(options: readonly OptionView[]): string {
    if (options.length === 0) return "The job has no charge point.";
    const cells = (rate: string, demand: string, route: string): string =>
      rate.padEnd(8) + demand.padEnd(18) + route;
    return [
      this.#colours.dim("Option".padEnd(24) + cells("Rate", "Demand", "Operator")),
      ...options.flatMap(({ title, rate, demand, route, settings, reason, nights }) => [
        (title.padEnd(24) + cells(rate, demand, route)).replaceAll(NO_BREAK_SPACE, " "),
        wrapped([...(settings === null ? [] : [`${capitalised(settings)}.`]), reason].join(" "), INDENT),
        ...(nights === null ? [] : [wrapped(nights, INDENT)]),
      ]),
    ].join("\n");
  }

  /** One finding down to facts and figures. */
  explanation(view: FindingView): string {
    const block = (title: string, lines: readonly string[]): readonly string[] =>
      lines.length === 0 ? [] : ["", this.#colours.bold(title), ...lines.map((line) => wrapped(line, "  "))];
    return [
      this.#colours.bold(wrapped(`${view.title} · ${view.word}`)),
      this.#colours.dim(view.id),
      wrapped(`${view.action === null ? "" : `${view.action}: `}${view.sentence}`),
      ...(view.comparison === null ? [] : ["", view.comparison]),
      ...(view.turning === null ? [] : [wrapped(view.turning)]),
      ...block("Missing", view.missing),
      ...(view.working.length === 0
        ? []
        : ["", this.#colours.bold("Working"), ...view.working.flatMap((line) => this.#working(line, "  "))]),
      ...block("Decided by", view.facts),
      ...block("Rests on assumed facts", view.assumed),
      ...block("Rests on figures not yet checked", view.unchecked),
      ...block("Source", [view.source]),
      "",
      wrapped(`Place in the job: ${view.path}`),
    ].join("\n");
  }

  #working(line: WorkingView, indent: string): readonly string[] {
    const deeper = indent.length < 24 ? `${indent}  ` : indent;
    return [
      wrapped(`${line.equation}   ${line.label}`, indent),
      ...(line.formula === null ? [] : [wrapped(`= ${line.formula}`, deeper)]),
      ...(line.isRepeated ? [this.#colours.dim(`${deeper}worked out above`)] : []),
      ...(line.chosenBy === null ? [] : [wrapped(`by ${line.chosenBy}`, deeper)]),
      ...(line.origin === "" ? [] : [this.#colours.dim(wrapped(line.origin, deeper))]),
      ...line.inputs.flatMap((input) => this.#working(input, deeper)),
    ];
  }

  #tone(tone: AssessmentView["headline"]["tone"]): (text: string) => string {
    const { red, yellow, green } = this.#colours;
    return { stop: red, fail: red, unknown: yellow, pass: green }[tone];
  }
}

const INDENT = "    ";

/** Words behind the indent, with room on the first line for a mark of the given width. */
const hanging = (words: string, markWidth: number): string => wrapped(words, INDENT).slice(markWidth);

const NO_BREAK_SPACE = "\u00a0";

/** Words broken into lines of at most eighty columns, each after the indent. */
export function wrapped(text: string, indent = ""): string {
  const lines: string[] = [];
  let line = "";
  for (const word of text.split(" ")) {
    const longer = line === "" ? word : `${line} ${word}`;
    if (indent.length + longer.length > WIDTH && line !== "") {
      lines.push(line);
      line = word;
    } else line = longer;
  }
  return [...lines, line].map((words) => indent + words.replaceAll(NO_BREAK_SPACE, " ")).join("\n");
}

const capitalised = (words: string): string => words.charAt(0).toUpperCase() + words.slice(1);
