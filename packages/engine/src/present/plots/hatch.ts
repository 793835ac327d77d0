import { px } from "./plot.ts";

export interface Box {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** A box as an element. */
export const outline = ({ x, y, width, height }: Box, more = ""): string =>
  `<rect x="${px(x)}" y="${px(y)}" width="${px(width)}" height="${px(height)}"${more}/>`;

/**
 * Path data of slanted lines over a box, for shades that print. Lines are drawn one by one, and not as a
 * pattern, because a pattern needs a reference from one element to another.
 *
 * @param box Where. [px]
 * @param spacing.px Between lines, at right angles to the base. [px]
 * @param spacing.slant Rising or falling to the right.
 */
export function hatching(
  box: Box,
  spacing: { readonly px: number; readonly slant: "rising" | "falling" },
): string {
  const { x, y, width, height } = box;
  if (width <= 0 || height <= 0) return "";
  const lines: string[] = [];
  // Each line is u + v = offset, u from the left, v from the bottom or the top.
  for (let offset = spacing.px / 2; offset < width + height; offset += spacing.px) {
    const fromU = Math.max(0, offset - height);
    const toU = Math.min(width, offset);
    const place = (u: number): string => {
      const v = offset - u;
      return `${px(x + u)} ${px(spacing.slant === "falling" ? y + height - v : y + v)}`;
    };
    lines.push(`M${place(fromU)}L${place(toU)}`);
  }
  return lines.join("");
}
