/**
 * Maximum demand for each customer against how many customers share the supply, with the band in which it
 * lies. Customers are on a logarithmic axis; demand begins at zero.
 *
 * @module
 */
import { type Field, horizontalAxis, roomForTicks, verticalAxis } from "./axes.ts";
import { label } from "./label.ts";
import { boxSwatch, legend, lineSwatch } from "./legend.ts";
import { countText, numberText } from "./number-text.ts";
import { linePath } from "./paths.ts";
import { FONT_SIZE, PLOT_WIDTH, type Plot, type PlotNames, type PlotText, plot, px, ROW } from "./plot.ts";
import { drawable, extentOf } from "./samples.ts";
import { linearScale, logScale, type Scale } from "./scale.ts";
import { GREY, path, SOLID, STROKES } from "./strokes.ts";

/** Demand at one number of customers. [kW] for each customer */
export interface DiversityPoint {
  readonly customerCount: number;
  readonly demandKw: number;
  /** Ends of the band; NaN where there is none. */
  readonly lowKw: number;
  readonly highKw: number;
}

export interface AfterDiversityDemand extends PlotNames {
  readonly points: readonly DiversityPoint[];
  /** What the band holds: "90 % of drawn groups". */
  readonly bandOf: string;
}

const HEIGHT = 190;

export function afterDiversityDemand(diversity: AfterDiversityDemand): Plot {
  const usable = diversity.points
    .filter(
      ({ customerCount, demandKw }) =>
        customerCount >= 1 && drawable(customerCount) !== null && drawable(demandKw) !== null,
    )
    .sort((a, b) => a.customerCount - b.customerCount);
  const banded = usable.filter(hasBand);
  const key = legend(
    [
      { text: "demand", swatch: lineSwatch(STROKES.mean) },
      ...(banded.length > 0 ? [{ text: diversity.bandOf, swatch: boxSwatch("grey") }] : []),
    ],
    2,
  );
  const top = key.bottomPx + ROW + 4;
  const bottom = top + HEIGHT;
  const extent = extentOf([
    [0],
    usable.map(({ demandKw }) => demandKw),
    banded.map(({ lowKw }) => lowKw),
    banded.map(({ highKw }) => highKw),
  ]) ?? { min: 0, max: 1 };
  const demand = linearScale({ ...extent, maxCount: 9 }, { fromPx: bottom, toPx: top });
  const field: Field = { left: roomForTicks(demand.ticks), right: PLOT_WIDTH - 20, top, bottom };
  const customers = logScale(
    {
      ...(extentOf([usable.map(({ customerCount }) => customerCount)]) ?? { min: 1, max: 100 }),
      maxCount: 12,
    },
    { fromPx: field.left, toPx: field.right },
  );
  const drawn = apart(usable, customers);
  const x = ({ customerCount }: DiversityPoint): number => customers.at(customerCount);
  const line = drawn.map((point) => [x(point), demand.at(point.demandKw)] as const);
  const band = bandRuns(drawn).map((run) => ({
    low: run.map((point) => [x(point), demand.at(point.lowKw)] as const),
    high: run.map((point) => [x(point), demand.at(point.highKw)] as const),
  }));
  const parts = [
    ...key.parts,
    label({ x: 4, y: key.bottomPx + FONT_SIZE, text: "demand for each customer [kW]" }),
    ...verticalAxis(demand, field),
    ...horizontalAxis(customers, field),
    path(band.map(({ low, high }) => linePath([...low, ...high.toReversed()])).join(""), GREY),
    path(band.map(({ low, high }) => linePath(low) + linePath(high)).join(""), STROKES.highest),
    path(linePath(line), STROKES.mean),
    path(
      line.map(([atX, atY]) => `M${px(atX - 2.5)} ${px(atY)}a2.5 2.5 0 1 0 5 0a2.5 2.5 0 1 0 -5 0`).join(""),
      SOLID,
    ),
    label({
      x: (field.left + field.right) / 2,
      y: bottom + 2 * ROW + 1,
      text: "number of customers",
      anchor: "middle",
    }),
  ].filter((part) => part !== "");
  return plot(diversity, { heightPx: bottom + 2 * ROW + 8, parts }, textOf(diversity, usable));
}

const hasBand = ({ lowKw, highKw }: DiversityPoint): boolean =>
  drawable(lowKw) !== null && drawable(highKw) !== null;

/** Neighbours that have a band, together; a point without one parts them. */
function bandRuns(points: readonly DiversityPoint[]): readonly (readonly DiversityPoint[])[] {
  const runs: DiversityPoint[][] = [[]];
  for (const point of points) {
    if (hasBand(point)) runs.at(-1)?.push(point);
    else runs.push([]);
  }
  return runs;
}

/** Points far enough apart to be seen one by one, the first and the last among them. */
function apart(points: readonly DiversityPoint[], customers: Scale): readonly DiversityPoint[] {
  const kept: DiversityPoint[] = [];
  let free = Number.NEGATIVE_INFINITY;
  points.forEach((point, index) => {
    const x = customers.at(point.customerCount);
    if (x < free && index < points.length - 1) return;
    kept.push(point);
    free = x + 3;
  });
  return kept;
}

const MAX_ROWS = 12;

function textOf({ points, bandOf }: AfterDiversityDemand, usable: readonly DiversityPoint[]): PlotText {
  const [first, last] = [usable[0], usable.at(-1)];
  const every = Math.max(1, Math.ceil((usable.length - 1) / (MAX_ROWS - 1)));
  const rows = usable.filter((_, index) => index % every === 0 || index === usable.length - 1);
  return {
    sentences: [
      ...(first === undefined || last === undefined
        ? ["There is no demand to show."]
        : [
            `Maximum demand for each customer: ${kw(first.demandKw)} with ${countText(first.customerCount, "customer")}${usable.length > 1 ? `, ${kw(last.demandKw)} with ${countText(last.customerCount, "customer")}` : ""}.${usable.some(hasBand) ? ` The band holds ${bandOf}.` : ""}`,
          ]),
      ...(points.length > usable.length
        ? [`Left out, without a usable figure: ${numberText(points.length - usable.length, 0)}.`]
        : []),
      ...(every > 1 ? [`The table shows ${rows.length} of ${numberText(usable.length, 0)} points.`] : []),
    ],
    table:
      rows.length === 0
        ? null
        : {
            head: ["Customers", "Demand for each", "Band"],
            rows: rows.map((point) => [
              numberText(point.customerCount, 0),
              kw(point.demandKw),
              hasBand(point) ? `${kw(point.lowKw)} to ${kw(point.highKw)}` : "–",
            ]),
          },
  };
}

const kw = (powerKw: number): string => numberText(powerKw, 2, "nearest", "kW");
