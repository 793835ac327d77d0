/** What an ESPI document holds, before it is settled which of it is meant. */
export interface EspiDocument {
  /** Reading types by the address of their entry. */
  readonly types: ReadonlyMap<string, ReadingType>;
  /** Addresses that each meter reading is related to, by its own. */
  readonly meterReadings: ReadonlyMap<string, readonly string[]>;
  /** Readings, by the address that their blocks stand under. */
  readonly groups: ReadonlyMap<string, ReadingGroup>;
  readonly localTime: Readonly<Record<string, string>>;
}

/** Fields of a reading type that are numbers. */
export type ReadingType = Readonly<Record<string, number>>;

/** Readings of one meter reading, one place an entry in every list. */
export interface ReadingGroup {
  /** Epoch seconds; NaN where a reading follows the one before. */
  readonly startS: number[];
  /** NaN where the reading type says it. */
  readonly durationS: number[];
  readonly values: number[];
  readonly quality: number[];
  readonly lines: number[];
  /** Start of the block that a reading is the first of, by its place. */
  readonly blockStartS: Map<number, number>;
}

/** The reading type of a group: through the meter reading it stands under, or the only one there is. */
export function typeOf(document: EspiDocument, address: string): ReadingType | null {
  for (const [self, related] of document.meterReadings) {
    const isIts = related.includes(address) || (self !== "" && address.startsWith(`${self}/`));
    const type = isIts
      ? related.map((one) => document.types.get(one)).find((one) => one !== undefined)
      : undefined;
    if (type !== undefined) return type;
  }
  const [only] = document.types.values();
  return document.types.size === 1 && only !== undefined ? only : null;
}
