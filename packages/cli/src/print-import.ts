import {
  type Conclusion,
  coverageOf,
  type ImportResult,
  type Question,
  type RecordedSeries,
  type SeriesTotals,
  totalsOf,
} from "@underfuse/intake";
import { createColors } from "picocolors";
import { visible } from "./load-job.ts";
import { minuteBehind } from "./minute-behind.ts";
import { wrapped } from "./print.ts";

const MARKS = { seen: "·", stated: "=", assumed: "?" } as const;
const BASES = { seen: "", stated: "", assumed: "assumed: " } as const;

/** Options of the command line whose name is not that of the statement. */
const OPTIONS: Readonly<Record<string, string>> = { stepS: "step", dateOrder: "date-order" };
const ANSWERS: Readonly<Record<string, string>> = { ",": "comma", ".": "point" };

const optionOf = ({ id }: Question): string => `--${OPTIONS[id] ?? id}`;

/**
 * What an import concluded, what it must ask or refuses, as a person reads it in a terminal.
 *
 * @param shown.amperes The same recording as currents, where those were asked for.
 */
export function importText(
  result: ImportResult,
  path: string,
  { amperes, isColourful }: { readonly amperes: RecordedSeries | null; readonly isColourful: boolean },
): string {
  const { bold, red, yellow, dim } = createColors(isColourful);
  const conclusions =
    result.conclusions.length === 0
      ? []
      : [
          bold("What the file is taken to be"),
          ...result.conclusions.map((conclusion) => conclusionText(conclusion, dim)),
          "",
        ];
  if (result.state === "refused") {
    return [
      ...conclusions,
      red(
        wrapped(
          visible(
            `${path} is refused: ${result.problems.length === 1 ? "one problem" : `${result.problems.length} problems`}. The file has not been changed.`,
          ),
        ),
      ),
      ...result.problems.flatMap(({ code, line, column, found, message }) => [
        `  ${line === 0 ? "the file" : `line ${line}${column === undefined ? "" : `, column ${column}`}`}`,
        wrapped(visible(`found: ${found}`), "    "),
        wrapped(visible(`${message} [${code}]`), "    "),
      ]),
    ].join("\n");
  }
  const remarks =
    result.remarks.length === 0
      ? []
      : [
          "",
          bold("Left out, or worth knowing"),
          ...result.remarks.map(({ says }) => wrapped(visible(`· ${says}`))),
        ];
  if (result.state === "questions") {
    return [
      ...conclusions,
      yellow(wrapped("The file does not tell the following. State it and import again.")),
      ...result.questions.flatMap((question) => [
        "",
        bold(wrapped(visible(question.asks))),
        wrapped(visible(`It cannot be told: ${question.because}.`), "  "),
        ...(question.answers.length === 0 ? [`  ${optionOf(question)} …`] : []),
        ...question.answers.map(({ answer, means }) =>
          wrapped(
            visible(
              `${optionOf(question)} ${inShell(ANSWERS[answer] ?? answer)}${means === "" ? "" : `   ${means}`}`,
            ),
            "  ",
          ),
        ),
        ...threeText(question),
      ]),
      ...remarks,
    ].join("\n");
  }
  const recording = seriesText(result.series, amperes, isOfMaxima(result));
  return [...conclusions, bold("The recording"), ...recording, ...remarks].join("\n");
}

const conclusionText = ({ says, because, basis }: Conclusion, dim: (text: string) => string): string =>
  [
    wrapped(visible(`${MARKS[basis]} ${says}`)),
    dim(wrapped(visible(`${BASES[basis]}${because}`), "    ")),
  ].join("\n");

/** How three answers are given together. */
function threeText(question: Question): readonly string[] {
  const { orThree } = question;
  if (orThree === undefined) return [];
  const three = orThree.length === 0 ? ["FIRST", "SECOND", "THIRD"] : orThree.map(inShell);
  return [
    wrapped(
      visible(`${optionOf(question)} ${three.join(" ")}   where they are L1, L2 and L3, in this order`),
      "  ",
    ),
  ];
}

/** A word as a shell takes it. */
const inShell = (word: string): string =>
  /^[\w./#:-]+$/.test(word) ? word : `'${word.replaceAll("'", "'\\''")}'`;

const utc = (atMs: number): string => `${new Date(atMs).toISOString().slice(0, 16).replace("T", " ")} UTC`;

/** True where each value is the greatest of its interval, and no mean. */
const isOfMaxima = ({ remarks }: Extract<ImportResult, { state: "series" }>): boolean =>
  remarks.some(({ id }) => id === "maximum");

function seriesText(
  series: RecordedSeries,
  amperes: RecordedSeries | null,
  areMaxima: boolean,
): readonly string[] {
  const { startMs, stepS, unit, channels } = series;
  const count = channels[0]?.values.length ?? 0;
  const kind = areMaxima ? "greatest" : "mean";
  return [
    `from      ${utc(startMs)}`,
    `until     ${utc(startMs + count * stepS * 1000)}`,
    `step      ${stepS} s, ${count} intervals, kept as ${{ kWh: "kWh of the interval", W: `${kind} W`, A: `${kind} A` }[unit]}`,
    ...channels.flatMap((channel, index) => {
      const coverage = coverageOf(channel);
      const { energyKwh, greatestMean } = totalsOf(series, channel);
      const present = coverage.recordedCount + coverage.estimatedCount + coverage.questionableCount;
      const parts = [
        `${coverage.recordedCount} recorded`,
        `${coverage.estimatedCount} estimated`,
        `${coverage.questionableCount} questionable`,
        `${coverage.absentCount} absent`,
        `${coverage.leftOutCount} left out`,
        `${coverage.duplicateCount} duplicates dropped`,
      ].filter((part) => !part.startsWith("0 "));
      return [
        ...(channel.line === null ? [] : [`line      ${channel.line}`]),
        wrapped(`coverage  ${((100 * present) / count).toFixed(2)} %: ${parts.join(", ")}`),
        ...(energyKwh === null || areMaxima ? [] : [`energy    ${energyKwh.toFixed(3)} kWh`]),
        ...peakText({ stepS, greatest: greatestMean, asCurrent: amperesMean(amperes, index), areMaxima }),
      ];
    }),
  ];
}

type GreatestMean = SeriesTotals["greatestMean"];

/** Greatest mean of a channel as a current; null where no current was asked for. */
const amperesMean = (amperes: RecordedSeries | null, index: number): GreatestMean => {
  const channel = amperes?.channels[index];
  return amperes === null || channel === undefined ? null : totalsOf(amperes, channel).greatestMean;
};

/** The greatest mean, and where the minute behind it may lie; or the greatest maximum, behind which nothing lies. */
function peakText(told: {
  readonly stepS: number;
  readonly greatest: GreatestMean;
  readonly asCurrent: GreatestMean;
  readonly areMaxima: boolean;
}): readonly string[] {
  const { stepS, greatest, asCurrent, areMaxima } = told;
  if (greatest === null) return [];
  const means = [greatest, ...(greatest.unit === "A" || asCurrent === null ? [] : [asCurrent])];
  const shown = (value: number, unit: "W" | "A"): string =>
    unit === "W" ? `${(value / 1000).toFixed(3)} kW` : `${value.toFixed(2)} A`;
  const figures = means.map(({ value, unit }) => shown(value, unit)).join(", ");
  const when = `of the ${stepS} s from ${utc(greatest.atMs)}`;
  if (areMaxima) return [`greatest  ${figures}, a peak and not the mean ${when}`];
  const bands = means.flatMap((mean) => minuteBehind(stepS, mean) ?? []);
  const [first] = bands;
  const minute =
    first === undefined
      ? "peaks inside the interval are not shown"
      : `${bands.map(({ low, high, unit }) => `${shown(low, unit)} to ${shown(high, unit)}`).join(", ")} may stand behind that mean for a minute: ${first.ratios.low} to ${first.ratios.high} times as much (${first.basis})`;
  return [`greatest  ${figures}, mean ${when}`, wrapped(`minute    ${minute}`)];
}

/** The same as plain data. Values are left to the clean form. */
export function importJson(result: ImportResult, amperes: RecordedSeries | null): unknown {
  if (result.state !== "series") return result;
  const { series, ...rest } = result;
  const areMaxima = isOfMaxima(result);
  const { startMs, stepS, unit, channels } = series;
  return {
    ...rest,
    series: {
      startUtc: new Date(startMs).toISOString(),
      stepS,
      unit,
      channels: channels.map((channel, index) => {
        const totals = totalsOf(series, channel);
        const asCurrent = amperesMean(amperes, index);
        return {
          line: channel.line,
          coverage: coverageOf(channel),
          energyKwh: areMaxima ? null : totals.energyKwh,
          ...(areMaxima
            ? { greatestMean: null, greatestMaximum: totals.greatestMean, minuteBehind: null }
            : { greatestMean: totals.greatestMean, minuteBehind: minuteBehind(stepS, totals.greatestMean) }),
          ...(asCurrent !== null && {
            amperes: {
              onLines: amperes?.channels[index]?.onLines ?? null,
              ...(areMaxima
                ? { greatestMean: null, greatestMaximum: asCurrent, minuteBehind: null }
                : { greatestMean: asCurrent, minuteBehind: minuteBehind(stepS, asCurrent) }),
            },
          }),
        };
      }),
    },
  };
}
