/** Values on a grid, one channel after another. */
export interface Placed {
  readonly startMs: number;
  readonly channels: readonly {
    readonly values: Float64Array;
    readonly quality: Uint8Array;
    readonly duplicateCount: number;
  }[];
  /** Line of the first reading at a place of the grid; 0 where there is none. */
  readonly lineOf: (slot: number) => number;
}
