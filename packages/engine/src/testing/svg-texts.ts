/**
 * Texts of a drawing as boxes, to see whether one covers another. Widths are those of DejaVu Sans, the
 * widest type that a drawing may be shown in.
 *
 * @module
 */
import { XMLParser, XMLValidator } from "fast-xml-parser";
import { textWidth } from "../present/plots/text-width.ts";

interface TextBox {
  readonly text: string;
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

const SIZE = 12;

/** Everything wrong with a drawing that can be seen without looking at it; empty where nothing is. */
export function faultsOf(svg: string): readonly string[] {
  const valid = XMLValidator.validate(svg);
  if (valid !== true) return [`not well-formed: ${valid.err.msg}`];
  const { svg: root } = new XMLParser({
    ignoreAttributes: false,
    attributeNamePrefix: "",
    parseTagValue: false,
    trimValues: false,
    isArray: (name) => name === "text",
  }).parse(svg);
  const [, , width, height] = root.viewBox.split(" ").map(Number);
  const boxes: readonly TextBox[] = (root.text ?? []).map(boxOf);
  return [
    ...(/="[^"]*(NaN|Infinity|undefined|null|\de[+-]?\d)/.test(svg) ? ["a coordinate is no number"] : []),
    ...(/href|<script|url\(/.test(svg) ? ["a reference to something else"] : []),
    ...(root.title && root.desc ? [] : ["no title or description"]),
    ...boxes
      .filter(
        ({ left, right, top, bottom }) =>
          !(left >= -ROUNDING && right <= width + ROUNDING && top >= 0 && bottom <= height),
      )
      .map(({ text }) => `outside the drawing: ${text}`),
    ...boxes.flatMap((a, index) =>
      boxes
        .slice(index + 1)
        .filter((b) => cover(a, b))
        .map((b) => `one on the other: ${a.text} / ${b.text}`),
    ),
  ];
}

/** Coordinates are rounded to a tenth. */
const ROUNDING = 0.1;

function boxOf(item: Record<string, string>): TextBox {
  // The parser leaves numbered entities as they are.
  const text = (item["#text"] ?? "").replaceAll("&#39;", "'");
  const [x, y, width] = [Number(item.x), Number(item.y), textWidth(text)];
  const left =
    item["text-anchor"] === "end" ? x - width : item["text-anchor"] === "middle" ? x - width / 2 : x;
  // From the height of capitals to the depth of descenders, as shares of the size.
  return { text, left, right: left + width, top: y - 0.76 * SIZE, bottom: y + 0.24 * SIZE };
}

const cover = (a: TextBox, b: TextBox): boolean =>
  a.left + ROUNDING < b.right &&
  b.left + ROUNDING < a.right &&
  a.top + ROUNDING < b.bottom &&
  b.top + ROUNDING < a.bottom;
