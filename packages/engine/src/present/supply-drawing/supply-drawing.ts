/**
 * The supply as a single-line drawing: an SVG string. No DOM, no clock, no random ids: the same job gives
 * the same bytes.
 *
 * The supply enters at the top. A node with one continuation is followed straight down; where it splits, each
 * leg begins one column to the right, so that the whole stays as narrow as a phone.
 *
 * @module
 */
import { escapeMarkup } from "../escape.ts";
import type { DrawnNode, DrawnTransformer } from "./drawn-supply.ts";
import { currentTransformer, lineStrokes, RESIDUAL, SYMBOL_HEIGHT, SYMBOLS } from "./symbols.ts";

const WIDTH = 380;
const LEFT = 26;
const COLUMN = 34;
const TEXT_GAP = 26;
const TEXT_HEIGHT = 12;
const LINE_HEIGHT = 15;
const ROW_GAP = 10;
/** Mean width of a character of the drawing's type, for breaking lines. */
const CHARACTER = 6.4;

interface Placed {
  readonly node: DrawnNode;
  readonly column: number;
  /** Top of the row, where the feed begins. */
  readonly top: number;
  readonly symbolTop: number;
  readonly bottom: number;
  readonly parent: Placed | null;
  readonly texts: readonly {
    readonly x: number;
    readonly y: number;
    readonly text: string;
    readonly isTitle: boolean;
  }[];
  readonly transformers: readonly { readonly y: number; readonly transformer: DrawnTransformer }[];
}

/** @param title What the drawing is of, for those who cannot see it. */
export function supplyDrawing(root: DrawnNode, title: string): string {
  const placed = place(root);
  const height = (placed.at(-1)?.bottom ?? 0) + ROW_GAP;
  const below = new Map<Placed, Placed[]>();
  for (const item of placed) {
    if (item.parent === null) continue;
    const legs = below.get(item.parent);
    if (legs) legs.push(item);
    else below.set(item.parent, [item]);
  }
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${WIDTH} ${height}" class="supply" role="img" aria-labelledby="supply-title" fill="none" stroke="currentColor" stroke-width="1.6" font-family="system-ui, sans-serif" font-size="${TEXT_HEIGHT}">`,
    `<title id="supply-title">${escapeMarkup(title)}</title>`,
    ...placed.flatMap((item) => drawLegs(item, below.get(item) ?? [])),
    ...placed.map(drawNode),
    "</svg>",
    "",
  ].join("\n");
}

/** Places every node, top to bottom, without recursion. */
function place(root: DrawnNode): readonly Placed[] {
  const placed: Placed[] = [];
  const waiting: { node: DrawnNode; column: number; parent: Placed | null }[] = [
    { node: root, column: 0, parent: null },
  ];
  let top = 6;
  for (let next = waiting.pop(); next !== undefined; next = waiting.pop()) {
    const item = placeNode(next.node, next.column, next.parent, top);
    placed.push(item);
    top = item.bottom;
    const splits = next.node.children.length > 1;
    for (const child of [...next.node.children].reverse()) {
      waiting.push({ node: child, column: next.column + (splits ? 1 : 0), parent: item });
    }
  }
  return placed;
}

function placeNode(node: DrawnNode, column: number, parent: Placed | null, top: number): Placed {
  const x = LEFT + column * COLUMN + TEXT_GAP;
  const room = Math.floor((WIDTH - x) / CHARACTER);
  const texts: { x: number; y: number; text: string; isTitle: boolean }[] = [];
  let y = top;
  const write = (lines: readonly string[], isTitle = false): void => {
    for (const text of lines.flatMap((words) => broken(words, room))) {
      y += LINE_HEIGHT;
      texts.push({ x, y, text, isTitle });
    }
  };
  if (node.feed !== null && node.feed.words.length > 0) write(node.feed.words);
  const transformers = node.transformers.map((transformer) => {
    const at = y + 16;
    write(transformer.words);
    y = Math.max(y, at + 10);
    return { y: at, transformer };
  });
  const feedDepth = node.feed === null ? 0 : Math.max(y - top + 6, 14);
  const symbolTop = top + feedDepth;
  y = symbolTop - 2;
  write([node.title], true);
  write(node.words);
  const bottom = Math.max(symbolTop + SYMBOL_HEIGHT, y + ROW_GAP);
  return { node, column, top, symbolTop, bottom, parent, texts, transformers };
}

/** Breaks words into lines of at most `room` characters. */
function broken(words: string, room: number): readonly string[] {
  const lines: string[] = [];
  let line = "";
  for (const word of words.split(" ")) {
    const longer = line === "" ? word : `${line} ${word}`;
    if (longer.length > room && line !== "") {
      lines.push(line);
      line = word;
    } else line = longer;
  }
  return [...lines, line];
}

const xOf = ({ column }: Placed): number => LEFT + column * COLUMN;

/** The conductors from a node down: straight on, or a trunk with a joint for every leg that leaves it. */
function drawLegs(item: Placed, below: readonly Placed[]): readonly string[] {
  const last = below.at(-1);
  if (last === undefined) return [];
  const [x, start] = [xOf(item), item.symbolTop + SYMBOL_HEIGHT];
  if (below.length === 1) return [`<path d="M${x} ${start} L${x} ${last.symbolTop}"/>`];
  const joints = below.map((leg) => ({ leg, y: leg.top + 2 }));
  return [
    `<path d="M${x} ${start} L${x} ${last.top + 2}"/>`,
    ...joints.map(({ leg, y }) => `<path d="M${x} ${y} L${xOf(leg)} ${y} L${xOf(leg)} ${leg.symbolTop}"/>`),
    ...joints.slice(0, -1).map(({ y }) => `<circle cx="${x}" cy="${y}" r="2.5" fill="currentColor"/>`),
  ];
}

function drawNode(item: Placed): string {
  const { node, symbolTop, top, texts, transformers } = item;
  const x = xOf(item);
  const strokes =
    node.feed === null ? "" : lineStrokes(node.feed.lineCount, symbolTop - 9 - (node.feed.lineCount - 1) * 4);
  return [
    `<g id="supply-${escapeMarkup(node.id)}" data-symbol="${node.symbol}">`,
    `<title>${escapeMarkup([node.title, ...node.words].join(", "))}</title>`,
    `<g transform="translate(${x} ${symbolTop})">${SYMBOLS[node.symbol]}${node.hasResidual ? RESIDUAL : ""}</g>`,
    ...(strokes === "" || symbolTop - top < 24 ? [] : [`<g transform="translate(${x} 0)">${strokes}</g>`]),
    ...transformers.map(
      ({ y, transformer }) =>
        `<g transform="translate(${x} 0)" data-transformer="${escapeMarkup(transformer.id)}">${currentTransformer(y, transformer.arrow)}</g>`,
    ),
    ...texts.map(
      ({ x: at, y, text, isTitle }) =>
        `<text x="${at}" y="${y}" fill="currentColor" stroke="none"${isTitle ? ' font-weight="700"' : ""}>${escapeMarkup(text)}</text>`,
    ),
    "</g>",
  ].join("\n");
}
