import { LINE_ANGLE_RAD, LINES } from "../quantities/index.ts";
import { SUPPLY_V } from "./load-scale.ts";

/** Where the star point of a site without a neutral has drifted to, and how well the voltages agree on it. */
export interface StarPoint {
  /** In units of the supply's voltage, line L1 along the real axis. [1] */
  readonly re: number;
  readonly im: number;
  /** Sum of squares of what the voltages read beside this point, over their variance. [1] */
  readonly misfit: number;
  /** Logarithm of the density of the voltages, over all places the point might be. */
  readonly logDensity: number;
}

/** How far a supply's voltages lie from three equal ones. [V] */
const TRIANGLE_SD = 5;

/**
 * The star point from three voltages: each is the distance of a corner of the supply's triangle from it.
 * Two of three would give it; the third must agree.
 *
 * @param tapLines Line that each channel's voltage is of, counted from 0; −1 for none alone.
 * @param volts What the channels read. [V]
 * @returns null where fewer than three channels read line to neutral.
 */
export function starPointOf(tapLines: readonly number[], volts: readonly number[]): StarPoint | null {
  const corners = volts.flatMap((value, c) => {
    const line = tapLines[c] ?? -1;
    return line < 0 || Number.isNaN(value) ? [] : [{ ...cornerOf(line), line, size: value / SUPPLY_V }];
  });
  if (new Set(corners.map(({ line }) => line)).size < 3) return null;
  let [re, im] = [0, 0];
  for (let pass = 0; pass < PASSES; pass++) {
    let [aa, ab, bb, ra, rb] = [1e-9, 0, 1e-9, 0, 0];
    for (const corner of corners) {
      const [dx, dy] = [re - corner.re, im - corner.im];
      const size = Math.max(1e-6, Math.hypot(dx, dy));
      const [ux, uy] = [dx / size, dy / size];
      const left = corner.size - size;
      aa += ux * ux;
      ab += ux * uy;
      bb += uy * uy;
      ra += ux * left;
      rb += uy * left;
    }
    const determinant = aa * bb - ab * ab;
    re += (bb * ra - ab * rb) / determinant;
    im += (aa * rb - ab * ra) / determinant;
  }
  const sd = TRIANGLE_SD / SUPPLY_V;
  let misfit = 0;
  let [aa, ab, bb] = [0, 0, 0];
  for (const corner of corners) {
    const [dx, dy] = [re - corner.re, im - corner.im];
    const size = Math.max(1e-6, Math.hypot(dx, dy));
    misfit += ((corner.size - size) / sd) ** 2;
    aa += (dx / size) ** 2;
    ab += (dx * dy) / size ** 2;
    bb += (dy / size) ** 2;
  }
  // Three readings, two of them spent on the point itself: Laplace's method over its place.
  const width = Math.log(2 * Math.PI * TRIANGLE_SD ** 2) - 0.5 * Math.log(Math.max(1e-6, aa * bb - ab * ab));
  const logDensity = -corners.length * Math.log(TRIANGLE_SD * Math.sqrt(2 * Math.PI)) - 0.5 * misfit + width;
  return { re, im, misfit, logDensity };
}

const PASSES = 8;
/** Voltage of a line against the star point of the supply, in its own units. */
export const cornerOf = (line: number): { readonly re: number; readonly im: number } => {
  const angle = LINE_ANGLE_RAD[LINES[line] as (typeof LINES)[number]];
  return { re: Math.cos(angle), im: Math.sin(angle) };
};
