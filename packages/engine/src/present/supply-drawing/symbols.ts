/**
 * Graphical symbols for single-line diagrams after [iec60617], drawn on a vertical conductor.
 *
 * Each is SVG markup for a box of SYMBOL_HEIGHT, the conductor entering at (0, 0) and leaving at
 * (0, SYMBOL_HEIGHT). Everything takes the current colour, so it prints black and shows light on dark.
 *
 * @module
 */
import type { DrawnSymbol } from "./drawn-supply.ts";

export const SYMBOL_HEIGHT = 36;

const line = (x1: number, y1: number, x2: number, y2: number, more = ""): string =>
  `<line x1="${x1}" y1="${y1}" x2="${x2}" y2="${y2}"${more}/>`;
const through = line(0, 0, 0, SYMBOL_HEIGHT);

/** Contact opening to the left: fixed contact above, blade below. */
const contact = `${line(0, 0, 0, 10)}${line(-9, 11, 0, 28)}${line(0, 28, 0, SYMBOL_HEIGHT)}`;
const letter = (text: string, x = 0, y = 22.5): string =>
  `<text x="${x}" y="${y}" font-size="11" text-anchor="middle" fill="currentColor" stroke="none">${text}</text>`;

export const SYMBOLS: Readonly<Record<DrawnSymbol, string>> = {
  /** The network: an arrow into the installation. */
  origin: `${line(0, 0, 0, SYMBOL_HEIGHT)}<path d="M-5 12 L0 22 L5 12 Z" fill="currentColor"/>${line(-8, 0, 8, 0)}`,
  /** Fuse: a rectangle on the conductor, which passes through it. */
  fuse: `<rect x="-6" y="7" width="12" height="22"/>${through}`,
  /** Watt-hour meter: a square with a bar at the top. */
  meter: `${line(0, 0, 0, 4)}<rect x="-14" y="4" width="28" height="28"/>${line(-14, 11, 14, 11)}${letter("Wh", 0, 26)}${line(0, 32, 0, SYMBOL_HEIGHT)}`,
  /** Switch-disconnector: bar and circle at the fixed contact. */
  switch: `${contact}<circle cx="0" cy="12" r="2.5"/>${line(-5, 8, 5, 8)}`,
  /** Connector block: a terminal strip. */
  block: `${line(0, 0, 0, 14)}<rect x="-10" y="14" width="20" height="9"/>${line(-3.3, 14, -3.3, 23)}${line(3.3, 14, 3.3, 23)}${line(0, 23, 0, SYMBOL_HEIGHT)}`,
  /** Board: a busbar. */
  board: `${line(0, 0, 0, SYMBOL_HEIGHT)}${line(-14, 18, 14, 18, ' stroke-width="5"')}`,
  /** Circuit-breaker: a cross at the fixed contact. */
  breaker: `${contact}${line(-4, 6, 4, 14)}${line(-4, 14, 4, 6)}`,
  /** Load: an arrow away. */
  load: `${line(0, 0, 0, 18)}<path d="M-5 18 L5 18 L0 28 Z" fill="currentColor"/>`,
  /** Charge point: a socket-outlet with protective contact, in a case. */
  "charge-point": `${line(0, 0, 0, 6)}<rect x="-14" y="6" width="28" height="26" rx="3"/>${line(0, 6, 0, 14)}<path d="M-8 22 A8 8 0 0 1 8 22"/>${line(-8, 14, 8, 14)}${line(-8, 22, -8, 26)}${line(8, 22, 8, 26)}`,
  generator: `${line(0, 0, 0, 5)}<circle cx="0" cy="19" r="13"/>${letter("G")}`,
  /** Storage: a battery cell. */
  storage: `${line(0, 0, 0, 14)}${line(-11, 14, 11, 14)}${line(-6, 20, 6, 20, ' stroke-width="5"')}${line(0, 20, 0, 28)}`,
};

/** Residual current function: a toroid round the conductor, below the contact. */
export const RESIDUAL = `<ellipse cx="0" cy="31" rx="8" ry="3"/>${line(-8, 31, -14, 31)}${line(-14, 31, -14, 19, ' stroke-dasharray="3 2"')}${line(-14, 19, -5, 19, ' stroke-dasharray="3 2"')}`;

/** Strokes across the conductor: one for a single line, three for three lines. */
export function lineStrokes(count: number, y: number): string {
  return Array.from({ length: count }, (_, index) => {
    const at = y + index * 4;
    return line(-5, at + 4, 5, at - 4);
  }).join("");
}

/** Current transformer: a circle round the conductor, its secondary leading away, and its arrow. */
export function currentTransformer(y: number, arrow: 1 | -1 | 0): string {
  const head =
    arrow === 0
      ? letter("?", -17, y + 4)
      : `${line(-17, y - 8, -17, y + 8)}<path d="M-20.5 ${y + 3 * arrow} L-17 ${y + 9 * arrow} L-13.5 ${y + 3 * arrow} Z" fill="currentColor"/>`;
  return `<circle cx="0" cy="${y}" r="8"/>${line(8, y, 20, y)}${line(13, y - 4, 11, y + 4)}${line(17, y - 4, 15, y + 4)}${head}`;
}
