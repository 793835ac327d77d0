import { type Complex, multiply } from "../quantities/index.ts";

/** A square complex matrix as rows. Made small and read often; never larger than three lines. */
export type Matrix = readonly (readonly Complex[])[];

const ZERO: Complex = { re: 0, im: 0 };
const ONE: Complex = { re: 1, im: 0 };

export const unitRow = (size: number, column: number): readonly Complex[] =>
  Array.from({ length: size }, (_, k) => (k === column ? ONE : ZERO));

export const identity = (size: number): Matrix =>
  Array.from({ length: size }, (_, row) => unitRow(size, row));

export const scaledRow = (row: readonly Complex[], by: Complex): readonly Complex[] =>
  row.map((entry) => multiply(entry, by));

export const sumOfRows = (a: readonly Complex[], b: readonly Complex[], sign = 1): readonly Complex[] =>
  a.map((entry, k) => {
    const other = b[k] ?? ZERO;
    return { re: entry.re + sign * other.re, im: entry.im + sign * other.im };
  });

export const meanRow = (matrix: Matrix): readonly Complex[] =>
  scaledRow(
    matrix.reduce((sum, row) => sumOfRows(sum, row)),
    { re: 1 / matrix.length, im: 0 },
  );

/** The matrix with some rows changed. */
export const withRows = (
  matrix: Matrix,
  rows: readonly number[],
  change: (row: readonly Complex[], index: number) => readonly Complex[],
): Matrix => matrix.map((row, index) => (rows.includes(index) ? change(row, index) : row));

/** New row k is old row `from[k]`, counted from 0. */
export const permutedRows = (matrix: Matrix, from: readonly number[]): Matrix =>
  from.map((index) => matrix[index] as readonly Complex[]);

export const exchangedRows = (matrix: Matrix, i: number, j: number): Matrix =>
  permutedRows(
    matrix,
    matrix.map((_, k) => (k === i ? j : k === j ? i : k)),
  );
