import { type Complex, polar } from "./complex.ts";

/** The line conductors of a supply. A single-phase supply has L1 only. */
export const LINES = ["L1", "L2", "L3"] as const;
export type Line = (typeof LINES)[number];

/** Angle of each line-to-neutral voltage for a positive sequence. [rad] */
export const LINE_ANGLE_RAD: Readonly<Record<Line, number>> = {
  L1: 0,
  L2: (-2 * Math.PI) / 3,
  L3: (2 * Math.PI) / 3,
};

/** Line-to-neutral voltage phasor of a balanced supply. [V] */
export const linePhasor = (line: Line, voltageV: number): Complex => polar(voltageV, LINE_ANGLE_RAD[line]);
