import { escapeMarkup } from "../escape.ts";
import { FONT_SIZE, PLOT_WIDTH, px } from "./plot.ts";
import { shortened, textWidth } from "./text-width.ts";

/** A line of text; x is its start, middle or end, y its foot. */
export interface Label {
  readonly x: number;
  readonly y: number;
  readonly text: string;
  readonly anchor?: "start" | "middle" | "end";
}

export const label = ({ x, y, text, anchor = "start" }: Label): string =>
  `<text x="${px(x)}" y="${px(y)}"${anchor === "start" ? "" : ` text-anchor="${anchor}"`} fill="currentColor" stroke="none">${escapeMarkup(text)}</text>`;

/** Said in the middle of a field that has nothing to show. */
export const emptyField = (
  field: { readonly left: number; readonly right: number; readonly top: number; readonly bottom: number },
  text = "nothing recorded",
): string =>
  label({ x: (field.left + field.right) / 2, y: (field.top + field.bottom) / 2, text, anchor: "middle" });

const GAP = 6;
/** No more labels than these fit in a row, however short. */
const MAX_IN_ROW = PLOT_WIDTH / GAP;

/** Left and right end of a label. [px] */
const ends = ({ x, text, anchor = "start" }: Label): readonly [left: number, right: number] => {
  const width = textWidth(text);
  const left = anchor === "start" ? x : anchor === "middle" ? x - width / 2 : x - width;
  return [left, left + width];
};

/** Of labels along one row, from left to right, those that stay clear of the one before and of the edges. */
export function thinned(labels: readonly Label[]): readonly Label[] {
  const kept: Label[] = [];
  let free = 0;
  for (const item of labels) {
    const [left, right] = ends(item);
    if (left < free || right > PLOT_WIDTH) continue;
    kept.push(item);
    free = right + GAP;
  }
  return kept;
}

/** The same for labels that stand at even distances: every one, or every second, or every third, and so on. */
export function evenlyThinned(labels: readonly Label[]): readonly Label[] {
  const inside = labels.filter((item) => ends(item)[0] >= 0 && ends(item)[1] <= PLOT_WIDTH);
  for (let every = Math.ceil(inside.length / MAX_IN_ROW); every < inside.length; every++) {
    const kept = Array.from(
      { length: Math.ceil(inside.length / every) },
      (_, place) => inside[place * every],
    ).filter((item) => item !== undefined);
    if (thinned(kept).length === kept.length) return kept;
  }
  return inside.slice(0, 1);
}

/** A label about x, cut and moved as it must be to stay between two ends of its row. */
export function labelAbout(
  x: number,
  y: number,
  text: string,
  row: { readonly left: number; readonly right: number } = { left: GAP, right: PLOT_WIDTH - GAP },
): Label {
  const short = shortened(text, row.right - row.left);
  const half = textWidth(short) / 2;
  return { x: Math.min(Math.max(x, row.left + half), row.right - half), y, text: short, anchor: "middle" };
}

/**
 * Feet of labels beside a vertical axis, moved apart until none covers another, in the order of the wishes.
 *
 * @param wishes Where each label would stand by itself. [px]
 * @param room Highest and lowest foot allowed; there must be room for all.
 */
export function movedApart(
  wishes: readonly number[],
  room: { readonly topPx: number; readonly bottomPx: number },
): readonly number[] {
  const pitch = FONT_SIZE + 2;
  const order = wishes.map((_, index) => index).sort((a, b) => (wishes[a] ?? 0) - (wishes[b] ?? 0));
  const feet = [...wishes];
  let free = room.topPx;
  for (const index of order) {
    feet[index] = Math.max(wishes[index] ?? 0, free);
    free = (feet[index] ?? 0) + pitch;
  }
  let limit = room.bottomPx;
  for (const index of order.reverse()) {
    feet[index] = Math.min(feet[index] ?? 0, limit);
    limit = (feet[index] ?? 0) - pitch;
  }
  return feet;
}
