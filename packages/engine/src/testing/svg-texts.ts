/**
 * Faults of a drawing that can be seen without looking at it: markup that does not parse, a number that is
 * none, a text that covers another or leaves the drawing. Widths are those of DejaVu Sans, the widest type
 * that a drawing may be shown in.
 *
 * @module
 */
import { SaxesParser } from "saxes";
import { textWidth } from "../present/plots/text-width.ts";

interface TextBox {
  readonly text: string;
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

const SIZE = 12;
/** Coordinates are rounded to a tenth. */
const ROUNDING = 0.1;

/** Everything found wrong; empty where nothing is. */
export function faultsOf(svg: string): readonly string[] {
  const { faults, elements } = read(svg);
  if (faults.length > 0) return faults;
  const [, , width = 0, height = 0] = (elements[0]?.attributes.viewBox ?? "").split(" ").map(Number);
  const boxes = elements.filter(({ name }) => name === "text").map(boxOf);
  return [
    ...(/="[^"]*(NaN|Infinity|undefined|null|\de[+-]?\d)/.test(svg) ? ["a coordinate is no number"] : []),
    ...(/href|<script|url\(/.test(svg) ? ["a reference to something else"] : []),
    ...["title", "desc"].filter((name) => !elements.some((element) => element.name === name)),
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

interface Element {
  readonly name: string;
  readonly attributes: Readonly<Record<string, string>>;
  text: string;
}

function read(svg: string): { readonly faults: readonly string[]; readonly elements: readonly Element[] } {
  const faults: string[] = [];
  const elements: Element[] = [];
  const parser = new SaxesParser();
  parser.on("error", ({ message }) => faults.push(`not well-formed: ${message}`));
  let open: Element | null = null;
  parser.on("opentag", ({ name, attributes }) => {
    open = { name, attributes, text: "" };
    elements.push(open);
  });
  parser.on("text", (text) => {
    if (open !== null) open.text += text;
  });
  parser.on("closetag", () => {
    open = null;
  });
  parser.write(svg).close();
  return { faults, elements };
}

function boxOf({ attributes, text }: Element): TextBox {
  const [x, y, width] = [Number(attributes.x), Number(attributes.y), textWidth(text)];
  const anchor = attributes["text-anchor"];
  const left = anchor === "end" ? x - width : anchor === "middle" ? x - width / 2 : x;
  // From the height of capitals to the depth of descenders, as shares of the size.
  return { text, left, right: left + width, top: y - 0.76 * SIZE, bottom: y + 0.24 * SIZE };
}

const cover = (a: TextBox, b: TextBox): boolean =>
  a.left + ROUNDING < b.right &&
  b.left + ROUNDING < a.right &&
  a.top + ROUNDING < b.bottom &&
  b.top + ROUNDING < a.bottom;
