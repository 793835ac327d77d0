/**
 * Time-current chart of the main fuse: the band between its fast and its slow edge, and each excursion of
 * current as a point, how high against how long.
 *
 * An excursion is a current held for a time, as if it began with a cold fuse; what several in a row add up
 * to is the business of `fuse-margin-year.ts`. Both axes are logarithmic.
 *
 * @module
 */
import type { Gate } from "../../protection/index.ts";
import { type Field, horizontalAxis, roomForTicks, verticalAxis } from "./axes.ts";
import { label } from "./label.ts";
import { boxSwatch, legend } from "./legend.ts";
import { linePath } from "./paths.ts";
import { FONT_SIZE, PLOT_WIDTH, type Plot, plot, px, ROW } from "./plot.ts";
import { references, referenceUprights } from "./references.ts";
import { extentOf } from "./samples.ts";
import { logScale, type Scale } from "./scale.ts";
import { GREY, path, SOLID, STROKES } from "./strokes.ts";
import {
  FATES,
  type Fate,
  isOnLog,
  type JudgedCurrent,
  judged,
  type TimeCurrentChart,
  timeCurrentText,
} from "./time-current-text.ts";

const HEIGHT = 230;
/** Of points closer together than this only the one nearest to melting is drawn. [px] */
const CELL = 4;

const MARKS: Readonly<Record<Fate, (x: number, y: number) => string>> = {
  holds: (x, y) => path(`M${px(x - 2)} ${px(y)}a2 2 0 1 0 4 0a2 2 0 1 0 -4 0`),
  "may-melt": (x, y) => path(`M${px(x)} ${px(y - 3.5)}l3.5 3.5l-3.5 3.5l-3.5 -3.5Z`, SOLID),
  melts: (x, y) => path(`M${px(x - 3)} ${px(y - 3)}l6 6m0 -6l-6 6`, STROKES.mean),
};

export function timeCurrentChart(chart: TimeCurrentChart): Plot {
  const { band } = chart;
  const points = judged(chart.excursions, band);
  const known = references(chart).filter(({ valueA }) => isOnLog(valueA));
  const [fast, slow] = [drawableGates(band.fast), drawableGates(band.slow)];
  const gates = [...fast, ...slow];

  const key = legend(
    [
      ...(gates.length === 0 ? [] : [{ text: "between the edges", swatch: boxSwatch("outline", "grey") }]),
      ...FATES.filter((fate) => points.some((point) => point.fate === fate)).map((fate) => ({
        text: gates.length === 0 ? "not judged" : fate.replace("-", " "),
        swatch: (x: number, y: number) => MARKS[fate](x + 12, y + 5),
      })),
    ],
    2,
  );
  const namesTop = key.bottomPx + ROW;
  const top = namesTop + known.length * ROW + 6;
  const bottom = top + HEIGHT;
  const seconds = logScale(
    {
      ...(extentOf([gates.map(([, timeS]) => timeS), points.map(({ durationS }) => durationS)]) ?? ONE),
      maxCount: 10,
    },
    { fromPx: bottom, toPx: top },
  );
  const field: Field = { left: roomForTicks(seconds.ticks), right: PLOT_WIDTH - 20, top, bottom };
  const amps = logScale(
    {
      ...(extentOf([
        gates.map(([currentA]) => currentA),
        points.map(({ currentA }) => currentA),
        known.map(({ valueA }) => valueA),
      ]) ?? ONE),
      maxCount: 12,
    },
    { fromPx: field.left, toPx: field.right },
  );
  const at = ([currentA, timeS]: Gate) => [amps.at(currentA), seconds.at(timeS)] as const;
  /** An edge, and above its first gate straight up: at less current it need not melt at all. */
  const edge = (of: readonly Gate[]) => {
    const first = of[0];
    return first === undefined ? [] : [[amps.at(first[0]), top] as const, ...of.map(at)];
  };
  const parts = [
    ...key.parts,
    label({ x: 4, y: key.bottomPx + FONT_SIZE, text: "duration [s]" }),
    ...verticalAxis(seconds, field),
    path(
      amps.ticks.map(({ value }) => `M${px(amps.at(value))} ${px(top)}V${px(bottom)}`).join(""),
      STROKES.grid,
    ),
    ...horizontalAxis(amps, field),
    path(linePath([...edge(fast), ...edge(slow).toReversed()]), GREY),
    path(linePath(edge(fast)), STROKES.highest),
    path(linePath(edge(slow)), STROKES.mean),
    ...referenceUprights(known, amps, field, namesTop),
    ...spread(points, amps, seconds).map(({ fate, x, y }) => MARKS[fate](x, y)),
    label({
      x: (field.left + field.right) / 2,
      y: bottom + 2 * ROW + 1,
      text: "current [A]",
      anchor: "middle",
    }),
  ].filter((part) => part !== "");
  return plot(chart, { heightPx: bottom + 2 * ROW + 8, parts }, timeCurrentText(chart, points));
}

const ONE = { min: 1, max: 1 };

const drawableGates = (edge: readonly Gate[]): readonly Gate[] =>
  edge.filter(([currentA, timeS]) => isOnLog(currentA) && isOnLog(timeS));

/** One point for each cell of the field: the one that comes nearest to melting. */
function spread(
  points: readonly JudgedCurrent[],
  amps: Scale,
  seconds: Scale,
): readonly { readonly x: number; readonly y: number; readonly fate: Fate }[] {
  const cells = new Map<string, JudgedCurrent>();
  for (const point of points) {
    const cell = `${Math.floor(amps.at(point.currentA) / CELL)} ${Math.floor(seconds.at(point.durationS) / CELL)}`;
    const drawn = cells.get(cell);
    if (drawn === undefined || point.share > drawn.share) cells.set(cell, point);
  }
  return [...cells.values()].map(({ currentA, durationS, fate }) => ({
    x: amps.at(currentA),
    y: seconds.at(durationS),
    fate,
  }));
}
