import { hatching, outline } from "./hatch.ts";
import { label } from "./label.ts";
import { FONT_SIZE, PLOT_WIDTH, px, ROW } from "./plot.ts";
import { DARK_GREY, GREY, path, SOLID, STROKES } from "./strokes.ts";
import { shortened, textWidth } from "./text-width.ts";

/** One kind of mark and what it stands for. */
export interface LegendItem {
  readonly text: string;
  /** The mark itself in a box of SWATCH by 10 px whose upper left corner is given. */
  readonly swatch: (x: number, y: number) => string;
}

const SWATCH = 24;
const GAP = 4;

/** Marks with their meaning in rows from the left edge, as many rows as it takes. */
export function legend(
  items: readonly LegendItem[],
  topPx: number,
): { readonly parts: readonly string[]; readonly bottomPx: number } {
  let x = GAP;
  let y = topPx;
  const parts = items.flatMap(({ text, swatch }) => {
    const words = shortened(text, PLOT_WIDTH - SWATCH - 3 * GAP);
    const width = SWATCH + GAP + textWidth(words) + 3 * GAP;
    if (x > GAP && x + width > PLOT_WIDTH) {
      x = GAP;
      y += ROW;
    }
    const at = x;
    x += width;
    return [swatch(at, y + 3), label({ x: at + SWATCH + GAP, y: y + FONT_SIZE, text: words })];
  });
  return { parts, bottomPx: items.length === 0 ? topPx : y + ROW };
}

export const lineSwatch =
  (stroke: string) =>
  (x: number, y: number): string =>
    path(`M${px(x)} ${px(y + 5)}h${px(SWATCH)}`, stroke);

const FILLS = { outline: "", grey: GREY, "dark-grey": DARK_GREY, solid: SOLID } as const;

export const boxSwatch =
  (...fills: readonly (keyof typeof FILLS | "rising" | "falling")[]) =>
  (x: number, y: number): string => {
    const box = { x, y, width: SWATCH, height: 10 };
    return fills
      .map((fill) =>
        fill === "rising" || fill === "falling"
          ? path(hatching(box, { px: 4, slant: fill }), STROKES.hatch)
          : outline(box, FILLS[fill]),
      )
      .join("");
  };
