/** What a meter shows at one moment; null where a number is no number. Index = channel − 1. */
export interface MeterReading {
  /** [V] rms */
  readonly V: readonly (number | null)[];
  /** [A] rms, never negative */
  readonly I: readonly (number | null)[];
  /** [W] import positive */
  readonly P: readonly (number | null)[];
  /** [var] lagging import positive */
  readonly Q: readonly (number | null)[];
  /** P over V·I; null where nothing flows. */
  readonly PF: readonly (number | null)[];
  readonly totalP: number | null;
  readonly totalQ: number | null;
}
