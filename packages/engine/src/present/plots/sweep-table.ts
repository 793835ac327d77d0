/**
 * An outcome over two settings, as a table whose cells carry their value and a shade: the denser the hatch,
 * the larger the value. Columns that a narrow screen cannot hold go on in a further block below.
 *
 * @module
 */
import { requireInRange } from "../../quantities/index.ts";
import { hatching, outline } from "./hatch.ts";
import { label } from "./label.ts";
import { legend } from "./legend.ts";
import { numberText } from "./number-text.ts";
import { FONT_SIZE, PLOT_WIDTH, type Plot, type PlotNames, type PlotText, plot, ROW } from "./plot.ts";
import { drawable, type Extent, extentOf, type Samples, sampleAt } from "./samples.ts";
import { path, STROKES } from "./strokes.ts";
import { shortened, textWidth } from "./text-width.ts";

export interface SweepTable extends PlotNames {
  /** What varies from row to row, and its settings: "limit", "50 A", "60 A". */
  readonly rowsName: string;
  readonly rows: readonly string[];
  /** What varies from column to column, and its settings. */
  readonly columnsName: string;
  readonly columns: readonly string[];
  /** Outcome of each row at each column; NaN where it was not worked. */
  readonly cells: readonly Samples[];
  readonly outcome: {
    readonly name: string;
    readonly unit: string;
    readonly decimals: number;
    /** Above this the outcome is not wanted, and its cell has a heavy frame; null for no such bound. */
    readonly bound: number | null;
  };
}

const MAX_CELLS = 240;
const CELL_HEIGHT = 32;
const STRIP_HEIGHT = 10;
/** Distance of hatch lines for each fifth of the range, least value first; the least has none. [px] */
const SHADES_PX = [null, 12, 8, 5, 3] as const;

/** @throws EngineError OUT_OF_DOMAIN beyond 240 cells. */
export function sweepTable(given: SweepTable): Plot {
  const { rows, columns, cells } = given;
  const outcome = { ...given.outcome, bound: drawable(given.outcome.bound) };
  const sweep = { ...given, outcome };
  requireInRange("rows × columns", rows.length * columns.length, 0, MAX_CELLS);
  const values = rows.map((_, row) => columns.map((_name, column) => sampleAt(cells[row] ?? [], column)));
  const extent = extentOf(values.map((line) => line.map((value) => value ?? Number.NaN)));
  const texts = values.map((line) => line.map((value) => (value === null ? "?" : valueText(value, outcome))));

  const names = rows.map((name) => shortened(name, 90));
  const left = 4 + Math.max(20, ...names.map((name) => textWidth(name) + 6));
  const least = Math.max(44, ...texts.flat().map((text) => textWidth(text) + 8));
  const perBlock = Math.max(1, Math.floor((PLOT_WIDTH - 4 - left) / least));
  const width = (PLOT_WIDTH - 4 - left) / Math.min(perBlock, Math.max(1, columns.length));
  const key = keyOf(sweep, extent);
  const blockHeight = ROW + rows.length * CELL_HEIGHT + 10;
  const cell = (row: number, column: number): readonly string[] => {
    const box = {
      x: left + (column % perBlock) * width,
      y: headTop(column) + ROW + row * CELL_HEIGHT,
      width,
      height: CELL_HEIGHT,
    };
    const value = values[row]?.[column] ?? null;
    const strip = { ...box, y: box.y + CELL_HEIGHT - STRIP_HEIGHT, height: STRIP_HEIGHT };
    return [
      outline(box, isBeyond(value, outcome) ? ' stroke-width="2.4"' : ' stroke-width="0.6"'),
      shade(strip, value === null ? 0 : shadeOf(value, extent)),
      label({
        x: box.x + width / 2,
        y: box.y + FONT_SIZE + 4,
        text: texts[row]?.[column] ?? "?",
        anchor: "middle",
      }),
    ];
  };
  const top = key.bottomPx + ROW + 2;
  const headTop = (column: number): number => top + Math.floor(column / perBlock) * blockHeight;
  const blocks = Math.max(1, Math.ceil(columns.length / perBlock));
  const parts = [
    ...key.parts,
    label({
      x: 4,
      y: key.bottomPx + FONT_SIZE,
      text: shortened(`down: ${sweep.rowsName}; across: ${sweep.columnsName}`, PLOT_WIDTH - 8),
    }),
    ...columns.map((name, column) =>
      label({
        x: left + ((column % perBlock) + 0.5) * width,
        y: headTop(column) + FONT_SIZE,
        text: shortened(name, width - 4),
        anchor: "middle",
      }),
    ),
    ...Array.from({ length: blocks }, (_, block) =>
      names.map((text, row) =>
        label({
          x: left - 6,
          y: headTop(block * perBlock) + ROW + row * CELL_HEIGHT + FONT_SIZE + 4,
          text,
          anchor: "end",
        }),
      ),
    ).flat(),
    ...rows.flatMap((_, row) => columns.flatMap((_name, column) => cell(row, column))),
  ].filter((part) => part !== "");
  return plot(sweep, { heightPx: top + blocks * blockHeight, parts }, textOf(sweep, values, texts));
}

const shade = (strip: Parameters<typeof outline>[0], level: number): string => {
  const spacing = SHADES_PX[level];
  return spacing === null || spacing === undefined
    ? ""
    : path(hatching(strip, { px: spacing, slant: "rising" }), STROKES.hatch);
};

/** Which fifth of the range a value lies in, 0 to 4; 0 where all are equal. */
const shadeOf = (value: number, extent: Extent | null): number =>
  extent === null || extent.max === extent.min
    ? 0
    : Math.min(4, Math.floor((5 * (value - extent.min)) / (extent.max - extent.min)));

const isBeyond = (value: number | null, { bound }: SweepTable["outcome"]): boolean =>
  value !== null && bound !== null && value > bound;

/** Rounded up where there is a bound, so that what is beyond it never reads as on it. */
const valueText = (value: number, { decimals, bound }: SweepTable["outcome"], unit = ""): string =>
  numberText(value, decimals, bound === null ? "nearest" : "up", unit);

function keyOf({ outcome }: SweepTable, extent: Extent | null) {
  const name = `${outcome.name}${outcome.unit === "" ? "" : ` [${outcome.unit}]`}`;
  const box = (x: number, y: number) => ({ x, y, width: 24, height: 10 });
  return legend(
    [
      ...(extent === null
        ? []
        : [
            {
              text: `more ${name}`,
              swatch: (x: number, y: number) => outline(box(x, y)) + shade(box(x, y), 4),
            },
          ]),
      ...(outcome.bound === null
        ? []
        : [
            {
              text: `above ${numberText(outcome.bound, outcome.decimals, "nearest", outcome.unit)}`,
              swatch: (x: number, y: number) => outline(box(x, y), ' stroke-width="2.4"'),
            },
          ]),
    ],
    2,
  );
}

function textOf(
  sweep: SweepTable,
  values: readonly (readonly (number | null)[])[],
  texts: readonly (readonly string[])[],
): PlotText {
  const { rows, columns, rowsName, columnsName, outcome } = sweep;
  const all = values.flatMap((line, row) =>
    line.flatMap((value, column) => (value === null ? [] : [{ value, row, column }])),
  );
  const ordered = all.toSorted((a, b) => a.value - b.value);
  const [least, most] = [ordered[0], ordered.at(-1)];
  const place = ({ value, row, column }: (typeof all)[number]): string =>
    `${valueText(value, outcome, outcome.unit)} at ${rowsName} ${rows[row]}, ${columnsName} ${columns[column]}`;
  const absent = rows.length * columns.length - all.length;
  return {
    sentences: [
      `Shown: ${outcome.name}, by ${rowsName} and ${columnsName}.`,
      least === undefined || most === undefined
        ? "Nothing was worked."
        : `The least is ${place(least)}; the most is ${place(most)}.`,
      ...(outcome.bound === null
        ? []
        : [
            `Above ${numberText(outcome.bound, outcome.decimals, "nearest", outcome.unit)}: ${all.filter(({ value }) => isBeyond(value, outcome)).length} of ${all.length} settings.`,
          ]),
      ...(absent > 0 ? [`Not worked: ${numberText(absent, 0)}.`] : []),
    ],
    table: {
      head: [`${rowsName} \\ ${columnsName}`, ...columns],
      rows: rows.map((name, row) => [name, ...(texts[row] ?? [])]),
    },
  };
}
