/**
 * How often which peak: the highest current of each day, or of each half-hour, counted in classes.
 *
 * A class holds what is above its lower end, up to and with its upper end, so that a peak on the limit is
 * counted with those not above it. The first class holds its lower end too.
 *
 * @module
 */
import { highestText } from "./amps.ts";
import { type Field, horizontalAxis, roomForTicks, verticalAxis } from "./axes.ts";
import { hatching, outline } from "./hatch.ts";
import { emptyField, label } from "./label.ts";
import { boxSwatch, legend } from "./legend.ts";
import { countText, numberText } from "./number-text.ts";
import { FONT_SIZE, PLOT_WIDTH, type Plot, type PlotNames, type PlotText, plot, ROW } from "./plot.ts";
import {
  type Bounds,
  heldAgainst,
  missingReferences,
  type Reference,
  references,
  referenceUprights,
} from "./references.ts";
import { countWhere, extentOf, present, type Samples } from "./samples.ts";
import { linearScale } from "./scale.ts";
import { GREY, path, STROKES } from "./strokes.ts";
import { shortened } from "./text-width.ts";
import { linearTicks, type Tick } from "./ticks.ts";

export interface HistogramOfPeaks extends PlotNames, Bounds {
  /** One a day, or one a half-hour; NaN where nothing was recorded. Import is positive. [A] */
  readonly peaksA: Samples;
  /** What each is the highest one-minute current of: "day", "half-hour". */
  readonly peakOf: string;
}

/** Peaks of one class, parted by what they exceed. */
interface Class {
  readonly from: Tick;
  readonly to: Tick;
  readonly count: number;
  readonly aboveLimit: number;
  readonly aboveFuse: number;
}

const MAX_CLASSES = 24;
const HEIGHT = 150;

export function histogramOfPeaks(histogram: HistogramOfPeaks): Plot {
  const { peaksA, peakOf } = histogram;
  const known = references(histogram);
  const extent = extentOf([peaksA, known.map(({ valueA }) => valueA), [0]]) ?? { min: 0, max: 0 };
  const edges = linearTicks({ ...extent, maxCount: MAX_CLASSES + 1 });
  const classes = classesOf(histogram, edges);
  const most = Math.max(...classes.map(({ count }) => count));

  const key = legend(
    [
      { text: known.length === 0 ? `${peakOf}s` : "above neither", swatch: boxSwatch("outline", "grey") },
      ...known.map(({ name }) =>
        name === "limit"
          ? { text: "above the limit", swatch: boxSwatch("outline", "rising") }
          : { text: "above the fuse rating", swatch: boxSwatch("outline", "rising", "falling") },
      ),
    ],
    2,
  );
  const namesTop = key.bottomPx + ROW;
  const top = namesTop + known.length * ROW + 6;
  const bottom = top + HEIGHT;
  const counts = linearScale({ min: 0, max: most, maxCount: 6, minStep: 1 }, { fromPx: bottom, toPx: top });
  const field: Field = { left: roomForTicks(counts.ticks), right: PLOT_WIDTH - 16, top, bottom };
  const currents = linearScale(
    { min: edges[0]?.value ?? 0, max: edges.at(-1)?.value ?? 1, maxCount: 8 },
    { fromPx: field.left, toPx: field.right },
  );
  const bar = ({ from, to, count, aboveLimit, aboveFuse }: Class): readonly string[] => {
    const [x, width] = [currents.at(from.value), currents.at(to.value) - currents.at(from.value)];
    const part = (fromCount: number, toCount: number) => ({
      x,
      y: counts.at(toCount),
      width,
      height: counts.at(fromCount) - counts.at(toCount),
    });
    const below = count - Math.max(aboveLimit, aboveFuse);
    const limitOnly = part(below, count - aboveFuse);
    const fuse = part(count - aboveFuse, count);
    return [
      below > 0 ? outline(part(0, below), GREY) : "",
      path(hatching(limitOnly, { px: 5, slant: "rising" }), STROKES.hatch),
      path(hatching(fuse, { px: 5, slant: "rising" }), STROKES.hatch),
      path(hatching(fuse, { px: 5, slant: "falling" }), STROKES.hatch),
      count > 0 ? outline(part(0, count)) : "",
    ];
  };
  const axisName = `highest one-minute current of each ${peakOf} [A]`;
  const parts = [
    ...key.parts,
    label({ x: 4, y: key.bottomPx + FONT_SIZE, text: shortened(`number of ${peakOf}s`, PLOT_WIDTH - 8) }),
    ...verticalAxis(counts, field),
    ...horizontalAxis(currents, field),
    ...classes.flatMap(bar),
    ...referenceUprights(known, currents, field, namesTop),
    ...(most === 0 ? [emptyField(field)] : []),
    label({
      x: (field.left + field.right) / 2,
      y: bottom + 2 * ROW + 1,
      text: shortened(axisName, field.right - field.left),
      anchor: "middle",
    }),
  ];
  return plot(
    histogram,
    { heightPx: bottom + 2 * ROW + 8, parts: parts.filter((part) => part !== "") },
    textOf(histogram, classes),
  );
}

function classesOf(histogram: HistogramOfPeaks, edges: readonly Tick[]): readonly Class[] {
  const sorted = present(histogram.peaksA).sort();
  const known = references(histogram);
  return edges.slice(1).map((to, index) => {
    const from = edges[index] ?? to;
    const start = index === 0 ? 0 : upTo(sorted, from.value);
    const end = upTo(sorted, to.value);
    const above = (name: Reference["name"]): number => {
      const reference = known.find((item) => item.name === name);
      return reference === undefined ? 0 : Math.max(0, end - Math.max(start, upTo(sorted, reference.valueA)));
    };
    return { from, to, count: end - start, aboveLimit: above("limit"), aboveFuse: above("fuse") };
  });
}

/** How many of ascending values are at or below one. */
function upTo(sorted: Float64Array, value: number): number {
  let [low, high] = [0, sorted.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((sorted[middle] ?? 0) <= value) low = middle + 1;
    else high = middle;
  }
  return low;
}

function textOf(histogram: HistogramOfPeaks, classes: readonly Class[]): PlotText {
  const { peaksA, peakOf } = histogram;
  const known = references(histogram);
  const sorted = present(peaksA).sort();
  const absent = peaksA.length - sorted.length;
  const highest = sorted.at(-1);
  const middle = sorted.length === 0 ? 0 : medianOf(sorted);
  return {
    sentences: [
      ...(highest === undefined
        ? [`No ${peakOf} was recorded.`]
        : [
            `The highest one-minute current of each of ${countText(sorted.length, peakOf)}: half are at or below ${highestText(middle)}, the highest is ${highestText(highest)}${heldAgainst(highest, known)}.`,
            ...known.map(
              ({ valueA, text }) =>
                `Above ${text} for a minute: ${numberText(
                  countWhere(peaksA, (currentA) => currentA > valueA),
                  0,
                )} of ${countText(sorted.length, peakOf)}.`,
            ),
          ]),
      ...missingReferences(known),
      ...(absent > 0 ? [`Left out, without a usable record: ${numberText(absent, 0)}.`] : []),
    ],
    table: {
      head: ["Above, up to [A]", `Number of ${peakOf}s`, ...known.map(({ text }) => `Above ${text}`)],
      rows: classes
        .filter(({ count }) => count > 0)
        .map(({ from, to, count, aboveLimit, aboveFuse }) => [
          `${from.text} to ${to.text}`,
          numberText(count, 0),
          ...known.map(({ name }) => numberText(name === "limit" ? aboveLimit : aboveFuse, 0)),
        ]),
    },
  };
}

/** The lower of the two in the middle: a peak that was met. */
const medianOf = (sorted: Float64Array): number => sorted[Math.ceil(sorted.length / 2) - 1] ?? 0;
