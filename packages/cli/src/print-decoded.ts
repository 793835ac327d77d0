import { type DecodedDump, type DecodedRow, type DecodedTable, runWords } from "@underfuse/engine";
import { createColors } from "picocolors";
import { wrapped } from "./print.ts";

const MARKS = { yes: "✓", no: "✗", "cannot-tell": "?" } as const;
const TONES = { yes: "green", no: "red", "cannot-tell": "yellow" } as const;
const ORDER_WORDS = {
  told: "told by the registers",
  "as-map": "as the map says",
  "cannot-tell": "cannot be told",
  "not-needed": "not needed",
} as const;

/** Decoded registers in a terminal: each number with its registers, what it was held against, what stays open. */
export function decodedText(decoded: DecodedDump, isColourful: boolean): string {
  const colours = createColors(isColourful);
  const list = (title: string, items: readonly string[]): readonly string[] =>
    items.length === 0 ? [] : ["", colours.bold(title), ...items.map((item) => wrapped(item, "  "))];
  const row = (each: DecodedRow): readonly string[] => [
    colours[TONES[each.plausible]](MARKS[each.plausible]) +
      [
        `  ${each.quantity} ${each.channel}`.padEnd(22),
        String(each.address).padEnd(7),
        each.registers.map(hex).join(" ").padEnd(20),
        valueText(each),
      ].join(" "),
    ...(each.why === "" ? [] : [wrapped(each.why, "     ")]),
  ];
  const table = ({ title, rows, unread, order, checks, remarks }: DecodedTable): readonly string[] => [
    "",
    colours.bold(wrapped(title)),
    colours.dim("   number              address registers            decoded"),
    ...rows.flatMap(row),
    ...unread.map(({ quantity, channel, missing }) =>
      wrapped(`–  ${quantity} ${channel}: not read; register ${missing.join(", ")} is missing.`),
    ),
    ...(order === null
      ? []
      : list(
          `Word order: ${order.order === null ? "" : `${order.order}, `}${ORDER_WORDS[order.state]}`,
          order.reasons,
        )),
    ...list(
      "Held against one another",
      checks.flatMap(({ channel, words }) => words.map((sentence) => `${channel}: ${sentence}`)),
    ),
    ...list("About these registers", remarks),
  ];
  return [
    wrapped("✓ plausible   ✗ cannot be right   ? cannot be told"),
    ...decoded.tables.flatMap(table),
    ...list("About the dump", [
      ...decoded.remarks,
      ...(decoded.unused.length === 0
        ? []
        : [`Registers that no number uses: ${decoded.unused.map(runWords).join(", ")}.`]),
    ]),
    ...list("What these registers cannot show", decoded.cannotTell),
  ].join("\n");
}

const hex = (register: number): string => `0x${register.toString(16).padStart(4, "0")}`;

function valueText({ value, unit, sign }: DecodedRow): string {
  if (value === null) return "no number";
  const shown = Number.isInteger(value) ? String(value) : String(Number(value.toPrecision(7)));
  return `${shown}${unit === "1" ? "" : ` ${unit}`}${sign === "unknown" ? ", import or export not known" : ""}`;
}
