import { expect, it } from "vitest";
import { RowStore } from "./row-store.ts";

it("gives rows back in the order of the file, or from its end, over all its pieces", () => {
  // 65 536 cells make a piece: two rows of so many values.
  const store = new RowStore(32_768);
  for (let line = 1; line <= 5; line++) {
    const piece = store.room();
    piece.line[piece.count++] = line;
  }
  const lines = (isReversed: boolean) => {
    const seen: number[] = [];
    store.eachRow(isReversed, (piece, row) => seen.push(piece.line[row] as number));
    return seen;
  };
  expect(store.pieces).toHaveLength(3);
  expect(lines(false)).toEqual([1, 2, 3, 4, 5]);
  expect(lines(true)).toEqual([5, 4, 3, 2, 1]);
});
