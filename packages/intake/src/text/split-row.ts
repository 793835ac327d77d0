/** Why a line is no row: quotes still open at its end, or a quote where none may stand. */
export type RowFault = { readonly open: true } | { readonly strayAt: number };

/**
 * Cells of one row of a table.
 *
 * A cell that begins with a quote ends at the next one that is not doubled, and may hold delimiters and
 * ends of lines; a quote elsewhere is a fault. Spaces around a quoted cell are left out.
 *
 * @returns The cells; or what is wrong with the quotes, its place in characters from 1.
 */
export function splitRow(line: string, delimiter: string): readonly string[] | RowFault {
  if (!line.includes('"')) return line.split(delimiter);
  const cells: string[] = [];
  let at = 0;
  for (;;) {
    let start = at;
    while (line[start] === " ") start++;
    if (line[start] !== '"') {
      const found = line.indexOf(delimiter, at);
      const cell = line.slice(at, found < 0 ? line.length : found);
      const quote = cell.indexOf('"');
      if (quote >= 0) return { strayAt: at + quote + 1 };
      cells.push(cell);
      if (found < 0) return cells;
      at = found + 1;
      continue;
    }
    let [cell, from] = ["", start + 1];
    for (;;) {
      const quote = line.indexOf('"', from);
      if (quote < 0) return { open: true };
      cell += line.slice(from, quote);
      from = quote + 1;
      if (line[from] !== '"') break;
      cell += '"';
      from++;
    }
    while (line[from] === " ") from++;
    cells.push(cell);
    if (from >= line.length) return cells;
    if (line[from] !== delimiter) return { strayAt: from + 1 };
    at = from + 1;
  }
}

/** True for a row without anything in it. */
export const isBlankRow = (cells: readonly string[]): boolean => cells.every((cell) => cell.trim() === "");

/** True for the cells of a row, false for what is wrong with one. */
export const isRow = (row: readonly string[] | RowFault): row is readonly string[] => Array.isArray(row);
