/** Rows of a recording before their times are settled: numbers only, in pieces, so that nothing is ever copied. */
export interface RowPiece {
  /** Rows in this piece. */
  count: number;
  /** Packed day of each row, as written. */
  readonly day: Int32Array;
  /** Second of the day as labelled, or number of the interval in the day; 0 in a wide table. */
  readonly second: Int32Array;
  /** Offset written beside the time. [min]; NO_OFFSET where there is none. */
  readonly offsetMin: Int16Array;
  readonly line: Uint32Array;
  /** `width` a row. */
  readonly values: Float64Array;
  readonly quality: Uint8Array;
}

/** Cells of values in one piece: half a megabyte of numbers. */
const PIECE_CELLS = 65_536;

export class RowStore {
  readonly width: number;
  readonly pieces: RowPiece[] = [];
  rowCount = 0;
  readonly #pieceRows: number;

  /** @param width Values a row. */
  constructor(width: number) {
    this.width = width;
    this.#pieceRows = Math.max(1, Math.floor(PIECE_CELLS / width));
  }

  /** The piece that takes the next row, at its place `count`. The caller fills every array and adds one to `count`. */
  room(): RowPiece {
    this.rowCount++;
    const last = this.pieces.at(-1);
    if (last !== undefined && last.count < this.#pieceRows) return last;
    const rows = this.#pieceRows;
    const piece: RowPiece = {
      count: 0,
      day: new Int32Array(rows),
      second: new Int32Array(rows),
      offsetMin: new Int16Array(rows),
      line: new Uint32Array(rows),
      values: new Float64Array(rows * this.width),
      quality: new Uint8Array(rows * this.width),
    };
    this.pieces.push(piece);
    return piece;
  }

  /** Calls back for every row, in the order of the file or from its end. */
  eachRow(isReversed: boolean, visit: (piece: RowPiece, row: number) => void): void {
    const pieces = isReversed ? this.pieces.toReversed() : this.pieces;
    for (const piece of pieces) {
      if (isReversed) for (let row = piece.count - 1; row >= 0; row--) visit(piece, row);
      else for (let row = 0; row < piece.count; row++) visit(piece, row);
    }
  }
}
