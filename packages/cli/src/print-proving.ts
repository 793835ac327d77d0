import {
  type DesignedPlace,
  type DiagnosisView,
  designedPlaceWords,
  type PredictedStep,
  type ProofView,
} from "@underfuse/engine";
import { createColors } from "picocolors";
import { wrapped } from "./print.ts";

const INDENT = "    ";
const TONES = { pass: "green", fail: "red", unknown: "yellow" } as const;

export function diagnosisText(view: DiagnosisView, isColourful: boolean): string {
  const colours = createColors(isColourful);
  const block = (title: string, lines: readonly string[]): readonly string[] =>
    lines.length === 0 ? [] : ["", colours.bold(title), ...lines.map((line) => wrapped(line, "  "))];
  return [
    colours[TONES[view.tone]](wrapped(view.title)),
    ...view.sentences.map((sentence) => wrapped(sentence)),
    ...block("Odd readings", view.remarks),
    "",
    colours.bold("What explains them"),
    ...view.causes.flatMap((cause) => [
      wrapped(`${cause.share.padEnd(10)}${cause.words}`),
      ...(cause.ids.length === 0 ? [] : [colours.dim(`${INDENT}${cause.ids.join(" ")}`)]),
      ...(cause.alike.length === 0
        ? []
        : [
            wrapped(
              `reads alike: ${cause.alike.join("; ")}${cause.moreAlike > 0 ? `; and ${cause.moreAlike} more` : ""}`,
              INDENT,
            ),
          ]),
      ...(cause.danger === null ? [] : [colours.red(wrapped(`Danger: ${cause.danger}`, INDENT))]),
      ...(cause.cure === null ? [] : [wrapped(`Cure: ${cause.cure}`, INDENT)]),
      ...(cause.partedBy === null ? [] : [wrapped(`To be sure: ${cause.partedBy}`, INDENT)]),
    ]),
    ...block("On the bus and in time", view.busCauses),
    ...block("Speaks against a sound chain", view.contradictions),
    ...block("Estimates, if the first cause is true (two standard deviations)", view.estimates),
    ...block(
      "What to measure next, by worth for its time",
      view.next.map(({ words, minutes, worth }) => `${words} (${minutes}; ${worth})`),
    ),
  ].join("\n");
}

export function proofText(view: ProofView, isColourful: boolean): string {
  const colours = createColors(isColourful);
  const rows = view.rows.map(({ channel, words, isProved, note }) =>
    wrapped(`${isProved ? "✓" : "?"}   ${channel} ${words}${note === "" ? "" : `: ${note}`}`),
  );
  return [
    colours[TONES[view.tone]](wrapped(view.title)),
    "",
    ...rows,
    "",
    wrapped(
      `Mark of this chain: ${view.mark}. Keep it with the readings: when the chain changes, the proof ends.`,
    ),
  ].join("\n");
}

export function predictionText(
  steps: readonly PredictedStep[],
  places: readonly DesignedPlace[],
  isColourful: boolean,
): string {
  const colours = createColors(isColourful);
  const band = ([low, high]: readonly [number, number], decimals = 0): string =>
    `${low.toFixed(decimals)}…${high.toFixed(decimals)}`;
  return [
    wrapped(
      "A sound chain, where the design puts it, shows with nothing else on. Add the idle reading to watts and vars; currents do not add exactly.",
    ),
    ...designedPlaceWords(places).map((words) => colours.yellow(wrapped(words))),
    "",
    colours.dim("step                     channel  V        A            W             var"),
    ...steps.flatMap(({ step, channels, totalP, totalQ }) => [
      ...channels.map(({ channel, V, I, P, Q }, index) =>
        [
          (index === 0 ? step.id : "").padEnd(25),
          channel.padEnd(9),
          band(V).padEnd(9),
          band(I, 1).padEnd(13),
          band(P).padEnd(14),
          band(Q),
        ]
          .join("")
          .trimEnd(),
      ),
      ...(channels.length > 1
        ? [`${"".padEnd(25)}${"total".padEnd(31)}${band(totalP).padEnd(14)}${band(totalQ)}`]
        : []),
    ]),
  ].join("\n");
}
