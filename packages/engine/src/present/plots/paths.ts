import { px } from "./plot.ts";

/** Where the columns of a series lie: column 0 begins at `fromPx`, each is `columnPx` wide. */
export interface Columns {
  readonly fromPx: number;
  readonly columnPx: number;
}

type Run = readonly { readonly column: number; readonly y: number }[];

/** Unbroken runs of a series that has gaps. */
function runsOf(ys: readonly (number | null)[]): readonly Run[] {
  const runs: { column: number; y: number }[][] = [];
  let isOpen = false;
  ys.forEach((y, column) => {
    if (y !== null) {
      if (!isOpen) runs.push([]);
      runs.at(-1)?.push({ column, y });
    }
    isOpen = y !== null;
  });
  return runs;
}

/** Path data of a series as steps, level across each column; a null leaves a gap. Heights are in px. */
export const stepPath = (ys: readonly (number | null)[], columns: Columns): string =>
  runsOf(ys)
    .map((run) => steps(run, columns))
    .join("");

/** The same closed down to a base line, to be filled. */
export const stepArea = (ys: readonly (number | null)[], columns: Columns, baseY: number): string =>
  runsOf(ys)
    .map((run) => `${steps(run, columns)}V${px(baseY)}H${px(xOf(run[0]?.column ?? 0, columns))}Z`)
    .join("");

const xOf = (column: number, { fromPx, columnPx }: Columns): number => fromPx + column * columnPx;

function steps(run: Run, columns: Columns): string {
  const first = run[0];
  if (first === undefined) return "";
  let path = `M${px(xOf(first.column, columns))} ${px(first.y)}`;
  let level = px(first.y);
  for (const { column, y } of run) {
    if (px(y) === level) continue;
    level = px(y);
    path += `H${px(xOf(column, columns))}V${level}`;
  }
  return `${path}H${px(xOf((run.at(-1)?.column ?? 0) + 1, columns))}`;
}

/** Path data of straight lines through points. */
export const linePath = (points: readonly (readonly [x: number, y: number])[]): string =>
  points.map(([x, y], index) => `${index === 0 ? "M" : "L"}${px(x)} ${px(y)}`).join("");
