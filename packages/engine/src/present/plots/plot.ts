/**
 * A plot is a drawing and the same in words: whoever cannot see the one reads the other.
 *
 * Drawings are SVG strings of one width, made for a phone held upright and for paper. They take the current
 * colour and part things by line and hatch, never by colour; they hold no script, link, clock or random id,
 * so the same data give the same bytes.
 *
 * @module
 */
import { escapeMarkup } from "../escape.ts";

export interface Plot {
  readonly svg: string;
  readonly text: PlotText;
}

export interface PlotText {
  readonly sentences: readonly string[];
  readonly table: PlotTable | null;
}

export interface PlotTable {
  readonly head: readonly string[];
  readonly rows: readonly (readonly string[])[];
}

/** What every plot is given beside its data. */
export interface PlotNames {
  /** Prefix of the drawing's ids; the caller keeps it apart from other ids on the page. */
  readonly id: string;
  readonly title: string;
}

export const PLOT_WIDTH = 360;
export const FONT_SIZE = 12;
/** From one line of text to the next. */
export const ROW = 17;

/** A coordinate: always one decimal, which is a twentieth of a millimetre on paper. */
export const px = (value: number): string => (Math.round(value * 10) / 10 + 0).toFixed(1);

export function plot(
  { id, title }: PlotNames,
  drawing: { readonly heightPx: number; readonly parts: readonly string[] },
  text: PlotText,
): Plot {
  const name = id.replace(/[^A-Za-z0-9_-]/g, "-");
  return {
    svg: [
      `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${PLOT_WIDTH} ${Math.ceil(drawing.heightPx)}" class="plot" role="img" aria-labelledby="${name}-title ${name}-desc" fill="none" stroke="currentColor" stroke-width="1" font-family="system-ui, sans-serif" font-size="${FONT_SIZE}">`,
      `<title id="${name}-title">${escapeMarkup(title)}</title>`,
      `<desc id="${name}-desc">${escapeMarkup(text.sentences.join(" "))}</desc>`,
      ...drawing.parts,
      "</svg>",
      "",
    ].join("\n"),
    text,
  };
}
