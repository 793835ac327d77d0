import { linearTicks, logTicks, type Tick } from "./ticks.ts";

/** Where on the drawing a value lies. The scale begins and ends at its outermost ticks. */
export interface Scale {
  readonly ticks: readonly Tick[];
  /** Place of a value [px]; values beyond the scale lie on its end. */
  readonly at: (value: number) => number;
}

type Range = { readonly min: number; readonly max: number; readonly maxCount: number };
/** `from` is where the smallest value lies: for a vertical scale the larger coordinate, for y points down. */
type Span = { readonly fromPx: number; readonly toPx: number };

export const linearScale = (range: Range & { readonly minStep?: number }, span: Span): Scale =>
  scaleOver(linearTicks(range), span, (value) => value);

export const logScale = (range: Range, span: Span): Scale => scaleOver(logTicks(range), span, Math.log10);

function scaleOver(ticks: readonly Tick[], { fromPx, toPx }: Span, shape: (value: number) => number): Scale {
  const [first, last] = [ticks[0]?.value ?? 0, ticks.at(-1)?.value ?? 1];
  const low = shape(first);
  const size = shape(last) - low;
  return {
    ticks,
    at: (value) => fromPx + ((shape(Math.min(Math.max(value, first), last)) - low) / size) * (toPx - fromPx),
  };
}
