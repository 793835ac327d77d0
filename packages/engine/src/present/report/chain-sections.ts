import { isReady, NEED_WORDS, orderOfWork, settingsSheet, terminalSchedule } from "../../fitting/index.ts";
import { errorBudget } from "../../metering/index.ts";
import { chainOfJob, type DesignedPlace, type PredictedStep, predictSteps } from "../../proving/index.ts";
import type { Assessment } from "../../rules/index.ts";
import { isKnown } from "../../worked/index.ts";
import { chainDrawing, chainOutline, drawnChain } from "../chain-drawing.ts";
import { designedPlaceWords } from "../designed-place-words.ts";
import type { DiagnosisView, ProofView } from "../diagnosis-view.ts";
import { escapeMarkup as text } from "../escape.ts";
import { disclosure, list, type Section, table } from "./html.ts";

/** What was read on site, where readings came with the report. */
export interface ProvingViews {
  readonly diagnosis: DiagnosisView;
  readonly proof: ProofView;
}

/** Sections about the metering chain: drawing, settings, terminals, order of work, predictions, and the proof. */
export function chainSections(
  { study, options }: Assessment,
  proving: ProvingViews | null,
): readonly Section[] {
  const open = { job: study.job, tree: study.tree };
  const drawn = drawnChain(open);
  if (drawn === null) return [];
  const managed = options.find(({ kind }) => kind === "managed");
  const settings = settingsSheet(open, {
    limit: study.highestLimit,
    margin: study.margin,
    fallback: managed?.fallback ?? null,
  });
  return [
    {
      id: "chain",
      title: "The metering chain",
      body: [
        chainDrawing(drawn, `Metering chain of ${study.job.title}`),
        disclosure("The drawing in words", list(chainOutline(drawn))),
        disclosure(
          "Terminals, wire by wire",
          table(
            ["Wire", "From", "To", "Check"],
            terminalSchedule(open).map(({ wire, from, to, check }) => [wire, from, to, check]),
          ),
        ),
        disclosure(
          "Settings sheet",
          table(
            ["Device", "Setting", "Value", "Why"],
            settings.map(({ device, setting, value, reason }) => [
              device,
              setting,
              value ?? "to be found out",
              reason,
            ]),
          ),
        ),
        disclosure("Error budget", budgets(study)),
        disclosure(
          "What a sound chain shows where the design puts it",
          predictions(predictSteps(open) ?? [], chainOfJob(open.job, open.tree)?.places ?? []),
        ),
      ].join("\n"),
    },
    { id: "order", title: "Order of work", body: order(open) },
    ...(proving === null ? [] : [diagnosisSection(proving.diagnosis), proofSection(proving.proof)]),
  ];
}

function order(open: Parameters<typeof orderOfWork>[0]): string {
  const steps = orderOfWork(open).map((step) => {
    const unmet = step.needs.flatMap(({ state, ...need }) => (state === "met" ? [] : [{ state, ...need }]));
    return `<li><b>${text(step.title)}</b>${isReady(step) ? "" : ` <span class="soft">waits</span>`}
${step.does.map((line) => `<p>${text(line)}</p>`).join("")}
${step.hold === null ? "" : `<p><b>Hold:</b> ${text(step.hold)}</p>`}
${unmet.map(({ words, state, path }) => `<p class="soft">${NEED_WORDS[state]}: ${text(words)}${path === null ? "" : ` <code>${text(path)}</code>`}</p>`).join("")}
<p class="soft">Leaves: ${text(step.leaves)}</p></li>`;
  });
  return `<ol class="ask">${steps.join("\n")}</ol>`;
}

function budgets({ job, knowledge, figures, supplyLimit }: Assessment["study"]): string {
  const { metering } = job;
  if (metering === null) return "";
  const most = isKnown(supplyLimit) ? supplyLimit.value : 60;
  const points = [6, 16, 32, most].filter((amps, at, all) => amps <= most && all.indexOf(amps) === at);
  const number = (value: number | null, decimals: number): string =>
    value === null ? "no promise" : value.toFixed(decimals);
  return metering.currentTransformers
    .map((transformer) => {
      const chain = { transformer, meterClass: metering.meterClass, tables: knowledge.metering, figures };
      const rows = errorBudget(points, { voltageV: 230, powerFactor: 0.95 }, chain);
      return `<h4>${text(transformer.id)}</h4>${table(
        ["At", "Worst %", "k = 2 %", "A", "W", "var"],
        rows.map((row) => [
          `${row.currentA} A`,
          number(row.worstPercent, 2),
          number(row.expandedPercent, 2),
          number(row.errorA, 2),
          number(row.errorW, 0),
          number(row.errorVar, 0),
        ]),
      )}`;
    })
    .join("\n")
    .concat(
      '<p class="soft">At 230 V and power factor 0.95 lagging. Holds while the burden stays within rated and the core is not saturated.</p>',
    );
}

function predictions(steps: readonly PredictedStep[], places: readonly DesignedPlace[]): string {
  const band = ([low, high]: readonly [number, number], decimals: number): string =>
    `${low.toFixed(decimals)} to ${high.toFixed(decimals)}`;
  return `${designedPlaceWords(places)
    .map((words) => `<p><b>${text(words)}</b></p>`)
    .join(
      "",
    )}<p>With nothing else on. Add the idle reading to watts and vars; currents do not add exactly.</p>${table(
    ["Step", "Channel", "V", "A", "W", "var"],
    steps.flatMap(({ step, channels }) =>
      channels.map(({ channel, V, I, P, Q }, index) => [
        index === 0 ? step.id : "",
        channel,
        band(V, 0),
        band(I, 1),
        band(P, 0),
        band(Q, 0),
      ]),
    ),
  )}`;
}

function diagnosisSection(view: DiagnosisView): Section {
  return {
    id: "diagnosis",
    title: "What the readings say",
    body: [
      `<p><b>${text(view.title)}</b></p>`,
      ...view.sentences.map((sentence) => `<p>${text(sentence)}</p>`),
      ...view.causes.map((cause) =>
        disclosure(
          `${cause.share} · ${cause.words}`,
          [
            ...(cause.danger === null ? [] : [`<p><b>Danger:</b> ${text(cause.danger)}</p>`]),
            ...(cause.cure === null ? [] : [`<p><b>Cure:</b> ${text(cause.cure)}</p>`]),
            ...(cause.partedBy === null ? [] : [`<p><b>To be sure:</b> ${text(cause.partedBy)}</p>`]),
            ...(cause.alike.length === 0 ? [] : [`<p>Reads alike:</p>${list(cause.alike)}`]),
            ...(cause.moreAlike === 0 ? [] : [`<p class="soft">and ${cause.moreAlike} more</p>`]),
          ].join("\n") || "<p>Nothing to mend.</p>",
        ),
      ),
      disclosure(
        "Readings beside what a sound chain shows",
        `<p>Each beside what was to be expected after the readings before it, two standard deviations either way.</p>${table(
          ["", "Step", "Channel", "Read", "Expected"],
          view.beside.map(({ cells, isWithin }) => [isWithin ? "✓" : "✗", ...cells]),
        )}`,
      ),
      ...(view.busCauses.length === 0 ? [] : [disclosure("On the bus and in time", list(view.busCauses))]),
      ...(view.contradictions.length === 0
        ? []
        : [disclosure("Speaks against a sound chain", list(view.contradictions))]),
      ...(view.estimates.length === 0
        ? []
        : [disclosure("Estimates, if the first cause is true", list(view.estimates))]),
      ...(view.remarks.length === 0
        ? []
        : [disclosure("Odd readings, and what was done", list(view.remarks))]),
      ...(view.next.length === 0
        ? []
        : [
            `<h3>What to measure next</h3>${list(view.next.map(({ words, minutes }) => `${words} (${minutes})`))}`,
          ]),
    ].join("\n"),
  };
}

const proofSection = (view: ProofView): Section => ({
  id: "proof",
  title: "Statement of proof",
  body: `<p><b>${text(view.title)}</b></p>${table(
    ["", "Line", "Property", "Note"],
    view.rows.map(({ channel, words, isProved, note }) => [isProved ? "✓" : "?", channel, words, note]),
  )}<p class="soft">Mark of this chain: ${text(view.mark)}. When the chain changes, the proof ends.</p>`,
});
