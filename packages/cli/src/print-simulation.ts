import {
  overByCarsS,
  type SimulationView,
  type SweepView,
  type SweptSite,
  settingRefusal,
  type ToldSentence,
} from "@underfuse/engine";
import { createColors } from "picocolors";
import { wrapped } from "./print.ts";

const MARKS = {
  pass: ["✓", "green"],
  fail: ["✗", "red"],
  unknown: ["?", "yellow"],
  none: ["·", "dim"],
} as const;
const INDENT = "    ";

/** A simulated site in a terminal, of at most eighty columns. */
export function simulationText(
  view: SimulationView,
  spread: readonly string[],
  isColourful: boolean,
): string {
  const colours = createColors(isColourful);
  const told = ({ tone, text }: ToldSentence): string => {
    const [mark, colour] = MARKS[tone];
    return colours[colour](mark) + wrapped(text, INDENT).slice(mark.length);
  };
  const section = (title: string, lines: readonly string[]): readonly string[] =>
    lines.length === 0 ? [] : ["", colours.bold(title), ...lines];
  return [
    wrapped(view.title),
    ...section("The cars", view.cars.map(told)),
    ...section("The supply", view.supply.map(told)),
    ...section(
      "Other days",
      spread.map((sentence) => wrapped(sentence, "  ")),
    ),
    ...section("The load manager", view.timing.map(told)),
    ...section(
      "If something fails",
      view.trials.length === 0
        ? []
        : [
            wrapped(view.trialsAre, "  "),
            ...view.trials.map(({ tone, what, fallback, over, highest, fuse }) =>
              told({
                tone,
                text: `${what}${fallback === null ? "" : `; fallback ${fallback}`}: ${over === "never" ? "never over" : `over ${over}`}, highest ${highest}${fuse === null ? "" : `; life of the fuse used: ${fuse}`}`,
              }),
            ),
          ],
    ),
    ...section(
      "Know this",
      view.remarks.map((remark) => wrapped(remark, "  ")),
    ),
    ...section(
      "Taken for granted, because nobody recorded it",
      view.assumed.map((item) => wrapped(item, "  ")),
    ),
  ].join("\n");
}

const COLUMNS = [
  ["Limit", "limit", 8],
  ["Margin", "margin", 7],
  ["Read", "readEvery", 7],
  ["Full", "mornings", 6],
  ["Missing", "missing", 10],
  ["Longest", "longest", 12],
  ["Over", "over", 12],
  ["By cars", "byCars", 12],
  ["Fuse", "fuse", 5],
] as const;

/** A sweep in a terminal, of at most eighty columns. */
export function sweepText(view: SweepView, isColourful: boolean): string {
  const colours = createColors(isColourful);
  const row = (cells: (name: (typeof COLUMNS)[number][1]) => string): string =>
    COLUMNS.map(([, name, width]) =>
      cells(name)
        .replaceAll(/[\u00a0\u202f]/g, " ")
        .padEnd(width),
    ).join("");
  const titles = Object.fromEntries(COLUMNS.map(([title, name]) => [name, title]));
  return [
    wrapped(view.title),
    "",
    colours.dim(row((name) => titles[name] ?? "")),
    ...view.rows.flatMap((item) => {
      const text = row((name) => item[name]) + (item.isRecommended ? "←" : "");
      const told = item.isRecommended ? colours.green(text) : item.refused === "" ? text : colours.dim(text);
      return [told.trimEnd(), ...(item.refused === "" ? [] : [colours.dim(`${INDENT}${item.refused}`)])];
    }),
    "",
    colours.bold("Recommended"),
    ...view.recommendation.map((sentence) => wrapped(sentence, "  ")),
    ...(view.fallbacks.length === 0
      ? []
      : [
          "",
          colours.bold("Fallback, with the bus broken at the building's highest and as it rises"),
          ...view.fallbacks.map((sentence) => wrapped(sentence, "  ")),
        ]),
    "",
    colours.bold("Know this"),
    ...view.remarks.map((remark) => wrapped(remark, "  ")),
  ].join("\n");
}

/** Every setting of a sweep with its figures, unrounded. */
export function sweepCsv({ swept, terms }: SweptSite): string {
  const rows = swept.map((one) => {
    const { setting, outcome } = one;
    return [
      setting.limitA,
      setting.marginA,
      setting.readEveryS,
      setting.fallbackA ?? "",
      outcome.fullShare ?? "",
      outcome.deliveredKwh,
      outcome.missingKwh,
      Math.max(...outcome.lines.map(({ over }) => over.count)),
      Math.max(...outcome.lines.map(({ over }) => over.totalS)),
      Math.max(...outcome.lines.map(({ over }) => over.longestS)),
      overByCarsS(outcome),
      outcome.lines.some(({ fuse }) => fuse === null)
        ? ""
        : Math.max(...outcome.lines.map(({ fuse }) => fuse?.fast ?? 0)),
      settingRefusal(one, terms) ?? "",
    ].join(",");
  });
  const heading =
    "limit A,margin A,read every s,fallback A,mornings full,delivered kWh,missing kWh,times over,over s,longest over s,over with a car s,fuse life used,refused";
  return `${[heading, ...rows].join("\n")}\n`;
}
