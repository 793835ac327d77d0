import type { SimulationView, ToldSentence } from "@underfuse/engine";
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
export function simulationText(view: SimulationView, isColourful: boolean): string {
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
    ...section("The load manager", view.timing.map(told)),
    ...section(
      "If something fails while the cars charge and the building is at its highest",
      view.trials.map(({ tone, what, fallback, longest, highest, fuse }) =>
        told({
          tone,
          text: `${what}; fallback ${fallback}: over for up to ${longest}, highest ${highest}; life of the fuse used: ${fuse}`,
        }),
      ),
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
