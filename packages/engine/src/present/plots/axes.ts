import { type Label, label, thinned } from "./label.ts";
import { FONT_SIZE, px } from "./plot.ts";
import type { Scale } from "./scale.ts";
import { path, STROKES } from "./strokes.ts";
import { textWidth } from "./text-width.ts";
import type { Tick } from "./ticks.ts";

/** The field in which data are drawn. [px] */
export interface Field {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

const TICK = 4;
/** From a field's lower edge to the foot of the names below it, clear of the lowest number at its left. */
export const FOOT = FONT_SIZE + TICK + 2;

/** Room that the numbers of a vertical axis need at its left. [px] */
export const roomForTicks = (ticks: readonly Tick[]): number =>
  Math.max(24, ...ticks.map(({ text }) => textWidth(text) + TICK + 4));

/** Horizontal grid lines with their numbers at the left; the line of zero is drawn full. */
export const verticalAxis = (scale: Scale, field: Field): readonly string[] => [
  path(
    scale.ticks.map(({ value }) => `M${px(field.left)} ${px(scale.at(value))}H${px(field.right)}`).join(""),
    STROKES.grid,
  ),
  ...scale.ticks.filter(({ value }) => value === 0).map(() => path(level(field, scale.at(0)))),
  path(`M${px(field.left)} ${px(field.top)}V${px(field.bottom)}`),
  ...scale.ticks.map(({ value, text }) =>
    label({ x: field.left - TICK, y: scale.at(value) + FONT_SIZE * 0.35, text, anchor: "end" }),
  ),
];

/** A line across the field. */
export const level = ({ left, right }: Field, y: number): string => `M${px(left)} ${px(y)}H${px(right)}`;

/** A line down the field. */
export const upright = ({ top, bottom }: Field, x: number): string => `M${px(x)} ${px(top)}V${px(bottom)}`;

/** Marks and numbers under the field; numbers that would touch are left out, their marks stay. */
export const horizontalAxis = (scale: Scale, field: Field): readonly string[] => [
  path(level(field, field.bottom)),
  path(scale.ticks.map(({ value }) => `M${px(scale.at(value))} ${px(field.bottom)}v${px(TICK)}`).join("")),
  ...thinned(
    scale.ticks.map(
      ({ value, text }): Label => ({
        x: scale.at(value),
        y: field.bottom + FOOT,
        text,
        anchor: "middle",
      }),
    ),
  ).map(label),
];
