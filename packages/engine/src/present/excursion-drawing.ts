import type { Excursion, Trace } from "../proving/index.ts";
import type { Line } from "../quantities/index.ts";
import { escapeMarkup } from "./escape.ts";
import { withUnit } from "./format.ts";

/** The current of one line through an excursion, as it is drawn. */
export interface DrawnExcursion {
  readonly title: string;
  readonly limitA: number;
  /** Each stands until the next. Where there are more values than room, the highest of each stretch. */
  readonly points: readonly { readonly atS: number; readonly currentA: number }[];
}

const MOST_POINTS = 240;

/** What is drawn of an excursion: itself, and as long again before and after it. */
export function drawnExcursion(
  { timesS, supplyA }: Pick<Trace, "timesS" | "supplyA">,
  {
    line,
    excursion,
    limitA,
  }: { readonly line: Line; readonly excursion: Excursion; readonly limitA: number },
): DrawnExcursion {
  const currents = supplyA[line] ?? new Float64Array();
  const { from, to, startS, backS, peakA } = excursion;
  const around = Math.max(5, to - from);
  const [first, last] = [Math.max(0, from - around), Math.min(timesS.length - 1, to + around)];
  const width = Math.max(1, Math.ceil((last - first + 1) / MOST_POINTS));
  const points: { atS: number; currentA: number }[] = [];
  for (let at = first; at <= last; at += width) {
    let highest = Number.NaN;
    for (let i = at; i < Math.min(at + width, last + 1); i++)
      if (!((currents[i] as number) <= highest))
        highest = Number.isNaN(currents[i]) ? highest : (currents[i] as number);
    if (!Number.isNaN(highest)) points.push({ atS: timesS[at] as number, currentA: highest });
  }
  return {
    title: `${line} over its limit of ${withUnit(limitA, "A", 1)} from ${withUnit(startS, "s", 1)} to ${withUnit(backS, "s", 1)}, peak ${withUnit(peakA, "A", 1, "up")}`,
    limitA,
    points,
  };
}

const [WIDTH, HEIGHT, LEFT, BOTTOM, TOP] = [380, 150, 44, 22, 14];

/** An excursion as a string of SVG: the same trace, the same bytes. */
export function excursionDrawing({ title, limitA, points }: DrawnExcursion): string {
  const [first, last] = [points[0]?.atS ?? 0, points.at(-1)?.atS ?? 1];
  const most = 1.1 * Math.max(limitA, ...points.map(({ currentA }) => currentA));
  const x = (atS: number): string =>
    (LEFT + ((atS - first) / Math.max(last - first, 1e-9)) * (WIDTH - LEFT - 6)).toFixed(2);
  const y = (currentA: number): string =>
    (HEIGHT - BOTTOM - (Math.max(0, currentA) / most) * (HEIGHT - BOTTOM - TOP)).toFixed(2);
  const path = points
    .map(({ atS, currentA }, index) =>
      index === 0 ? `M${x(atS)} ${y(currentA)}` : `H${x(atS)}V${y(currentA)}`,
    )
    .join("");
  const label = (at: { readonly x: string; readonly y: string }, words: string, anchor: string): string =>
    `<text x="${at.x}" y="${at.y}" font-size="11" text-anchor="${anchor}" fill="currentColor">${escapeMarkup(words)}</text>`;
  const low = (HEIGHT - 6).toFixed(2);
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" class="supply" role="img" viewBox="0 0 ${WIDTH} ${HEIGHT}">`,
    `<title>${escapeMarkup(title)}</title>`,
    `<path d="M${LEFT} ${TOP}V${HEIGHT - BOTTOM}H${WIDTH - 6}" fill="none" stroke="currentColor"/>`,
    `<path d="M${LEFT} ${y(limitA)}H${WIDTH - 6}" fill="none" stroke="currentColor" stroke-dasharray="5 4"/>`,
    `<path d="${path}" fill="none" stroke="currentColor" stroke-width="1.8"/>`,
    label({ x: String(LEFT - 4), y: y(limitA) }, withUnit(limitA, "A", 0), "end"),
    label({ x: String(LEFT), y: low }, withUnit(first, "s", 0), "start"),
    label({ x: String(WIDTH - 6), y: low }, withUnit(last, "s", 0), "end"),
    "</svg>",
  ].join("\n");
}
