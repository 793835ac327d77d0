/**
 * A week of current, line by line: what the supply carried, what the cars took of it, the limit and the fuse.
 *
 * Import is positive; export reaches below zero. Zero is always on the axis, and all lines share one scale.
 *
 * @module
 */
import { LINES, requireInRange } from "../../quantities/index.ts";
import { type Field, FOOT, roomForTicks, upright, verticalAxis } from "./axes.ts";
import { emptyField, evenlyThinned, type Label, label, labelAbout } from "./label.ts";
import { boxSwatch, legend, lineSwatch } from "./legend.ts";
import { stepArea, stepPath } from "./paths.ts";
import { PLOT_WIDTH, type Plot, plot, px, ROW } from "./plot.ts";
import { referenceLevels, references, roomForReferences } from "./references.ts";
import { extentOf, merged, present, runsFor, type Samples } from "./samples.ts";
import { linearScale } from "./scale.ts";
import { GREY, path, SOLID, STROKES } from "./strokes.ts";
import { shortened, textWidth } from "./text-width.ts";
import { type LineOfWeek, type WeekOfCurrent, weekText } from "./week-text.ts";

/** More columns than these the eye cannot part at the width of the drawing. */
const MAX_COLUMNS = 336;
const GAP = 8;

const KEY = legend(
  [
    { text: "supply, mean", swatch: lineSwatch(STROKES.mean) },
    { text: "supply, highest", swatch: lineSwatch(STROKES.highest) },
    { text: "cars, mean", swatch: boxSwatch("grey") },
    { text: "cars, highest", swatch: lineSwatch(STROKES.dotted) },
  ],
  2,
);

/** @throws EngineError OUT_OF_DOMAIN for more than three lines. */
export function weekOfCurrent(week: WeekOfCurrent): Plot {
  const { lines, moment } = week;
  requireInRange("lines.length", lines.length, 0, LINES.length);
  const periodCount = Math.max(0, ...lines.flatMap(seriesOf).map(({ length }) => length));
  const runs = runsFor(periodCount, MAX_COLUMNS);
  const known = references(week);
  const range = {
    ...aboutZero([...lines.flatMap(seriesOf), known.map(({ valueA }) => valueA)]),
    maxCount: 7,
  };

  const momentLine = lines.findIndex(({ name }) => name === moment?.line);
  const isMarked = moment !== null && momentLine >= 0 && moment.period >= 0 && moment.period < periodCount;
  const height = lines.length > 1 ? 112 : 170;
  const top = KEY.bottomPx + ROW + 4;
  const scaleFrom = (topPx: number) => linearScale(range, { fromPx: topPx + height, toPx: topPx });
  const left = roomForTicks(scaleFrom(top).ticks);
  const fieldOf = (index: number): Field => {
    const at = top + index * (height + ROW + GAP);
    return { left, right: PLOT_WIDTH - roomForReferences(known), top: at, bottom: at + height };
  };
  const { right, bottom } = fieldOf(Math.max(0, lines.length - 1));
  const columns = { fromPx: left, columnPx: (right - left) / Math.max(1, runs.count) };
  const xOf = (period: number): number => left + (period / runs.length) * columns.columnPx;
  const days = week.days
    .filter(({ period }) => period >= 0 && period < periodCount)
    .sort((a, b) => a.period - b.period);
  const dayLines = apart(days.map(({ period }) => xOf(period)));

  const panel = (line: LineOfWeek, index: number): readonly string[] => {
    const field = fieldOf(index);
    const scale = scaleFrom(field.top);
    const heights = (samples: Samples, kind: "mean" | "max") =>
      merged(samples, runs, kind).map((value) => (value === null ? null : scale.at(value)));
    return [
      label({ x: left, y: field.top - 7, text: nameOf(line) }),
      path(dayLines.map((x) => upright(field, x)).join(""), STROKES.grid),
      ...verticalAxis(scale, field),
      path(stepArea(heights(line.carMeanA, "mean"), columns, scale.at(0)), GREY),
      path(stepPath(heights(line.carMaxA, "max"), columns), STROKES.dotted),
      path(stepPath(heights(line.supplyMaxA, "max"), columns), STROKES.highest),
      path(stepPath(heights(line.supplyMeanA, "mean"), columns), STROKES.mean),
      ...referenceLevels(known, scale, field),
      ...(seriesOf(line).every((series) => present(series).length === 0) ? [emptyField(field)] : []),
    ];
  };
  const nameOf = ({ name }: LineOfWeek): string => `${shortened(name, (right - left) / 3)} [A]`;
  const mark = (): readonly string[] => {
    const line = lines[momentLine];
    if (!isMarked || line === undefined) return [];
    const x = xOf(moment.period + 0.5);
    const field = fieldOf(momentLine);
    return [
      label(
        labelAbout(x, field.top - 8, moment.label, {
          left: left + textWidth(nameOf(line)) + GAP,
          right: PLOT_WIDTH,
        }),
      ),
      path(upright(field, x), STROKES.dotted),
      path(`M${px(x)} ${px(field.top)}l-4 -6h8Z`, SOLID),
    ];
  };
  const dayNames = days.map(
    ({ period, label: text }): Label => ({
      x: xOf(period) + 2,
      y: bottom + FOOT,
      text: shortened(text, 80),
    }),
  );
  const parts = [
    ...KEY.parts,
    ...(lines.length === 0 ? [emptyField(fieldOf(0))] : lines.flatMap(panel)),
    ...evenlyThinned(dayNames).map(label),
    ...mark(),
  ];
  return plot(
    week,
    { heightPx: bottom + ROW + GAP, parts },
    weekText(week, { periodCount, runLength: runs.length, isMarked }),
  );
}

const seriesOf = ({ supplyMeanA, supplyMaxA, carMeanA, carMaxA }: LineOfWeek): readonly Samples[] => [
  supplyMeanA,
  supplyMaxA,
  carMeanA,
  carMaxA,
];

/** The range of all series and zero. */
function aboutZero(all: readonly Samples[]): { readonly min: number; readonly max: number } {
  const extent = extentOf(all);
  return { min: Math.min(0, extent?.min ?? 0), max: Math.max(0, extent?.max ?? 0) };
}

/** Of places from left to right, those far enough apart to be seen one by one. */
function apart(xs: readonly number[]): readonly number[] {
  const kept: number[] = [];
  for (const x of xs) if (x - (kept.at(-1) ?? Number.NEGATIVE_INFINITY) >= 4) kept.push(x);
  return kept;
}
