/**
 * How near the main fuse came to melting, day by day: the highest damage fraction on the fast and on the
 * slow edge of its time-current band.
 *
 * A fraction of 1 on the fast edge is the first moment at which the fuse may melt; of 1 on the slow edge, the
 * moment by which it has melted. The axis is linear, so that the distance to 1 is seen as it is; only where
 * the fraction goes far beyond 1 is it logarithmic.
 *
 * @module
 */
import { EngineError, isIsoDate } from "../../quantities/index.ts";
import { type Field, FOOT, level, roomForTicks, upright, verticalAxis } from "./axes.ts";
import { dayMarks, type FuseMarginYear, fractionText, fuseYearText, worstDay } from "./fuse-year-text.ts";
import { emptyField, evenlyThinned, label, labelAbout } from "./label.ts";
import { boxSwatch, legend, lineSwatch } from "./legend.ts";
import { stepArea } from "./paths.ts";
import { FONT_SIZE, PLOT_WIDTH, type Plot, plot, px, ROW } from "./plot.ts";
import { extentOf, merged, runsFor, type Samples } from "./samples.ts";
import { linearScale, logScale } from "./scale.ts";
import { DARK_GREY, path, SOLID, STROKES } from "./strokes.ts";

const MAX_COLUMNS = 366;
const HEIGHT = 170;
/** Up to here a linear axis still shows where 1 is. */
const MAX_LINEAR = 5;
/** Foot of the logarithmic axis: a hundredth of what melts the fuse. Less is drawn on the foot. */
const MIN_LOG = 0.01;

const KEY = legend(
  [
    { text: "fast edge", swatch: boxSwatch("dark-grey") },
    { text: "slow edge", swatch: boxSwatch("solid") },
    { text: "1, where it melts", swatch: lineSwatch(STROKES.fuse) },
  ],
  2,
);

/** @throws EngineError OUT_OF_DOMAIN where the first day is not a date. */
export function fuseMarginYear(year: FuseMarginYear): Plot {
  const { fastFraction, slowFraction, firstDayIso } = year;
  if (firstDayIso !== null && !isIsoDate(firstDayIso)) {
    throw new EngineError(
      "OUT_OF_DOMAIN",
      `firstDayIso is "${firstDayIso.slice(0, 40)}"; it must be a date such as 2026-01-31. Pass null where the days have no date.`,
      { name: "firstDayIso" },
    );
  }
  const dayCount = Math.max(fastFraction.length, slowFraction.length);
  const runs = runsFor(dayCount, MAX_COLUMNS);
  const max = Math.max(1, extentOf([fastFraction, slowFraction])?.max ?? 1);
  const isLinear = max <= MAX_LINEAR;

  const top = KEY.bottomPx + 2 * ROW + 6;
  const bottom = top + HEIGHT;
  const span = { fromPx: bottom, toPx: top };
  const scale = isLinear
    ? linearScale({ min: 0, max, maxCount: 8 }, span)
    : logScale({ min: MIN_LOG, max, maxCount: 8 }, span);
  const field: Field = { left: roomForTicks(scale.ticks), right: PLOT_WIDTH - 12, top, bottom };
  const columns = { fromPx: field.left, columnPx: (field.right - field.left) / Math.max(1, runs.count) };
  const xOf = (day: number): number => field.left + (day / runs.length) * columns.columnPx;
  const heights = (samples: Samples) =>
    merged(samples, runs, "max").map((value) => (value === null ? null : scale.at(value)));
  const days = dayMarks(firstDayIso, dayCount);
  const worst = worstDay(year);

  const parts = [
    ...KEY.parts,
    label({
      x: 4,
      y: KEY.bottomPx + FONT_SIZE,
      text: `damage fraction, ${runs.length === 1 ? "highest of each day" : `highest of every ${runs.length} days`}${isLinear ? "" : ", log scale"}`,
    }),
    ...verticalAxis(scale, field),
    path(level(field, bottom)),
    path(days.map(({ day }) => upright({ ...field, top: bottom, bottom: bottom + 4 }, xOf(day))).join("")),
    path(stepArea(heights(fastFraction), columns, bottom), DARK_GREY),
    path(stepArea(heights(slowFraction), columns, bottom), SOLID),
    path(level(field, scale.at(1)), STROKES.fuse),
    ...evenlyThinned(days.map(({ day, text }) => ({ x: xOf(day) + 2, y: bottom + FOOT, text }))).map(label),
  ];
  if (worst === null) parts.push(emptyField(field));
  else if (worst.fraction <= 0) parts.push(emptyField(field, "0 on every day"));
  else {
    const x = xOf(worst.day + 0.5);
    parts.push(
      label(
        labelAbout(
          x,
          KEY.bottomPx + ROW + FONT_SIZE,
          `worst: ${fractionText(worst.fraction)}, ${worst.when}`,
        ),
      ),
      path(`M${px(x)} ${px(scale.at(worst.fraction))}l-4 -6h8Z`, SOLID),
    );
  }
  return plot(
    year,
    { heightPx: bottom + ROW + 8, parts },
    fuseYearText(year, { dayCount, runLength: runs.length, isLinear }),
  );
}
