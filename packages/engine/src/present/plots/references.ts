/**
 * The limit of the load manager and the rating of the main fuse, as plots of current mark them.
 *
 * @module
 */
import { type Field, level, upright } from "./axes.ts";
import { label, labelAbout, movedApart } from "./label.ts";
import { numberText } from "./number-text.ts";
import { FONT_SIZE, PLOT_WIDTH, px, ROW } from "./plot.ts";
import { drawable } from "./samples.ts";
import type { Scale } from "./scale.ts";
import { path, STROKES } from "./strokes.ts";
import { textWidth } from "./text-width.ts";

/** What the currents are held against; null where it is not known. */
export interface Bounds {
  readonly limitA: number | null;
  readonly fuseA: number | null;
}

export interface Reference {
  readonly name: "limit" | "fuse";
  readonly valueA: number;
  readonly text: string;
}

/** Those of the two that are known, the limit first. */
export const references = ({ limitA, fuseA }: Bounds): readonly Reference[] =>
  (
    [
      ["limit", limitA],
      ["fuse", fuseA],
    ] as const
  ).flatMap(([name, current]) => {
    const valueA = drawable(current);
    return valueA === null ? [] : [{ name, valueA, text: `${name} ${referenceText(valueA)}` }];
  });

/** The two in a sentence. */
const REFERENCE_NAMES: Readonly<Record<Reference["name"], string>> = {
  limit: "limit",
  fuse: "fuse rating",
};

/** How a highest current stands to what is known of the two. */
export const heldAgainst = (currentA: number, known: readonly Reference[]): string =>
  known
    .map(
      ({ name, valueA }) =>
        `, ${currentA > valueA ? "above" : "not above"} the ${REFERENCE_NAMES[name]} of ${referenceText(valueA)}`,
    )
    .join("");

/** A sentence for each of the two that is not known. */
export const missingReferences = (known: readonly Reference[]): readonly string[] =>
  (["limit", "fuse"] as const)
    .filter((name) => known.every((reference) => reference.name !== name))
    .map((name) => `No usable ${REFERENCE_NAMES[name]} is known, so none is drawn.`);

/** A limit or a rating as it was set: no more decimals than it has, two at most. */
function referenceText(valueA: number): string {
  const decimals = [0, 1].find((count) => Math.round(valueA * 10 ** count) === valueA * 10 ** count) ?? 2;
  return numberText(valueA, decimals, "nearest", "A");
}

const BESIDE = 7;

/** Room beside a field for the names of lines across it. [px] */
export const roomForReferences = (known: readonly Reference[]): number =>
  BESIDE + 1 + Math.max(0, ...known.map(({ text }) => textWidth(text)));

/** Lines across a field, named at its right; names that would cover each other are moved, and led to. */
export function referenceLevels(wanted: readonly Reference[], scale: Scale, field: Field): readonly string[] {
  const heights = wanted.map(({ valueA }) => scale.at(valueA));
  const feet = movedApart(
    heights.map((y) => y + FONT_SIZE * 0.35),
    { topPx: field.top + FONT_SIZE * 0.35, bottomPx: field.bottom },
  );
  return wanted.flatMap(({ name, text }, index) => {
    const [y, foot] = [heights[index] ?? 0, feet[index] ?? 0];
    return [
      path(level(field, y), STROKES[name]),
      path(`M${px(field.right)} ${px(y)}L${px(field.right + 5)} ${px(foot - FONT_SIZE * 0.35)}`),
      label({ x: field.right + BESIDE, y: foot, text }),
    ];
  });
}

/**
 * Lines down a field, each named in a row of its own above it, so that no name lies on another's line.
 * The lower current is named on its left; the higher on its right where there is room, else above both.
 */
export function referenceUprights(
  wanted: readonly Reference[],
  scale: Scale,
  field: Field,
  topPx: number,
): readonly string[] {
  const ascending = wanted.toSorted((a, b) => a.valueA - b.valueA);
  const last = ascending.at(-1);
  const hasRoom =
    last !== undefined && scale.at(last.valueA) + NAME_GAP + textWidth(last.text) <= PLOT_WIDTH - NAME_GAP;
  const rows = hasRoom ? ascending : ascending.toReversed();
  return rows.flatMap((reference, row) => {
    const { name, valueA, text } = reference;
    const x = scale.at(valueA);
    const foot = topPx + row * ROW + FONT_SIZE;
    const half = textWidth(text) / 2 + NAME_GAP;
    const isRight = reference === last;
    return [
      path(upright({ ...field, top: foot + 2 }, x), STROKES[name]),
      label(labelAbout(isRight ? x + half : x - half, foot, text)),
    ];
  });
}

const NAME_GAP = 4;
