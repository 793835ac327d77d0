/**
 * How lines look, the same in every plot: told apart by width and dash, so that they print in black.
 *
 * @module
 */
export const STROKES = {
  mean: ' stroke-width="1.8"',
  highest: ' stroke-width="0.7"',
  dotted: ' stroke-width="1" stroke-dasharray="1 2"',
  limit: ' stroke-width="1.3" stroke-dasharray="6 3"',
  fuse: ' stroke-width="1.8" stroke-dasharray="11 3 2 3"',
  grid: ' stroke-width="0.5" stroke-opacity="0.35"',
  hatch: ' stroke-width="0.8"',
} as const;

/** A grey that reads on light and on dark. */
export const GREY = ' fill="currentColor" fill-opacity="0.28" stroke="none"';
/** A darker one, for bars as thin as a day of a year. */
export const DARK_GREY = ' fill="currentColor" fill-opacity="0.5" stroke="none"';
export const SOLID = ' fill="currentColor" stroke="none"';

export const path = (data: string, more = ""): string => (data === "" ? "" : `<path d="${data}"${more}/>`);
