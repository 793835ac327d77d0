/**
 * How wide a text turns out, without a screen to ask.
 *
 * Advance widths of DejaVu Sans, thousandths of the size, from space to tilde: of the types that a browser
 * or the paper writer may choose it is the widest, so text that fits here fits everywhere.
 *
 * @module
 */
import { FONT_SIZE } from "./plot.ts";

// biome-ignore format: a table
const ADVANCES = [
  318, 401, 460, 838, 636, 950, 780, 275, 390, 390, 500, 838, 318, 361, 318, 337,
  636, 636, 636, 636, 636, 636, 636, 636, 636, 636, 337, 337, 838, 838, 838, 531,
  1000, 684, 686, 698, 770, 632, 575, 775, 752, 295, 295, 656, 557, 863, 748, 787,
  603, 787, 695, 635, 611, 732, 684, 989, 685, 611, 685, 390, 337, 390, 838, 500,
  500, 613, 635, 550, 635, 615, 352, 635, 634, 278, 278, 579, 278, 974, 634, 612,
  635, 635, 411, 521, 392, 634, 592, 818, 592, 592, 525, 636, 337, 636, 838,
];
const NARROW: Readonly<Record<string, number>> = {
  "\u00a0": 318,
  "\u202f": 200,
  "–": 500,
  "×": 838,
  "⁻": 528,
};
/** Signs of other scripts are as wide as they are high, pictures a little wider. */
const OTHER = 1000;
const PICTURE = 1400;

const advance = (sign: string): number => {
  const code = sign.codePointAt(0) ?? 0;
  if (code > 0xffff) return PICTURE;
  return ADVANCES[code - 32] ?? NARROW[sign] ?? (/[⁰¹²³⁴-⁹]/.test(sign) ? 401 : OTHER);
};

/** Width of a text at the size of all plots. [px] */
export function textWidth(text: string): number {
  let width = 0;
  for (const sign of text) width += advance(sign);
  return (width * FONT_SIZE) / 1000;
}

/** The text, or as much of its beginning as fits, then an ellipsis. */
export function shortened(text: string, roomPx: number): string {
  let width = 0;
  let kept = "";
  let fits = "";
  for (const sign of text.replace(/\s/g, " ")) {
    width += (advance(sign) * FONT_SIZE) / 1000;
    if (width > roomPx) return `${fits.trimEnd()}…`;
    kept += sign;
    if (width + FONT_SIZE <= roomPx) fits = kept;
  }
  return kept;
}
