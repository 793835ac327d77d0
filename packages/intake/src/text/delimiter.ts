import { isBlankRow, isRow, splitRow } from "./split-row.ts";

export type Delimiter = "," | ";" | "\t" | "|";

export const DELIMITER_NAMES: Readonly<Record<Delimiter, string>> = {
  ",": "commas",
  ";": "semicolons",
  "\t": "tabs",
  "|": "upright strokes",
};

/** A delimiter that parts the first lines of a file into rows, and how. */
export interface Parting {
  readonly delimiter: Delimiter;
  readonly cellCount: number;
  /** Lines that it parts into so many cells. */
  readonly rowCount: number;
}

/**
 * Delimiters that part a file's first lines alike, most convincing first.
 *
 * The commonest number of cells decides, so that a title above the table does not. A semicolon or tab goes
 * before a comma that parts as many lines, because the comma may be a decimal one.
 */
export function partings(lines: readonly string[]): readonly Parting[] {
  return BY_RANK.flatMap((delimiter) => {
    const linesByCount = new Map<number, number>();
    for (const line of lines) {
      const cells = splitRow(line, delimiter);
      if (!isRow(cells) || cells.length < 2 || isBlankRow(cells)) continue;
      linesByCount.set(cells.length, (linesByCount.get(cells.length) ?? 0) + 1);
    }
    const [most] = [...linesByCount].toSorted(([, a], [, b]) => b - a);
    return most === undefined ? [] : [{ delimiter, cellCount: most[0], rowCount: most[1] }];
  }).toSorted((a, b) => b.rowCount - a.rowCount);
}

const BY_RANK: readonly Delimiter[] = [";", "\t", "|", ","];
