import type { FaultCatalogue, ObservedFaultId } from "./fault-catalogue.ts";

/** What a person sees of a bus or of time, and the faults that show so; first the plainest. */
const SHOWN_BY = {
  "no-reply": ["F47", "F53", "F54", "F55"],
  "no-reply-from-one-address": ["F55", "F47", "F53", "F54"],
  "damaged-frames": ["F48", "F50", "F51", "F54"],
  "damaged-frames-fewer-when-slower": ["F48"],
  "damaged-frames-from-one-address": ["F52"],
  "errors-with-machines": ["F51"],
  "idle-voltage-negative": ["F47"],
  "idle-voltage-below-200-mv": ["F50", "F49"],
  "resistance-40-ohm-or-less": ["F49"],
  "exception-1": ["F56"],
  "exception-2": ["F57"],
  "exception-10": ["F55"],
  "exception-11": ["F55"],
  "values-stand-still": ["F61"],
  "values-ramp-after-a-step": ["F62"],
  "powers-disagree-while-changing": ["F63"],
  "cycle-longer-than-control": ["F64"],
  "car-follows-late": ["F66"],
} as const satisfies Record<string, readonly ObservedFaultId[]>;

export type BusObservation = keyof typeof SHOWN_BY;
export const BUS_OBSERVATIONS = Object.keys(SHOWN_BY) as [BusObservation, ...BusObservation[]];

export interface BusCause {
  readonly id: ObservedFaultId;
  /** Share among the faults of bus and time, given what was observed. */
  readonly probability: number;
}

/** How often a fault shows what it is known for, and how often anything else shows the same. Own judgement. */
const SHOWS = 0.8;
const OTHERWISE = 0.02;
const NEGLIGIBLE = 0.01;

/**
 * Faults of bus and time by what was observed, the likeliest first; empty where nothing was.
 *
 * Each observation speaks for itself; how common a fault is comes from the catalogue.
 */
export function busCauses(
  observed: readonly BusObservation[],
  catalogue: FaultCatalogue,
): readonly BusCause[] {
  if (observed.length === 0) return [];
  const ids = [...new Set(Object.values(SHOWN_BY).flat())] as ObservedFaultId[];
  const weighed = ids.map((id) => ({
    id,
    weight: [...new Set(observed)].reduce(
      (product, observation) =>
        product * ((SHOWN_BY[observation] as readonly ObservedFaultId[]).includes(id) ? SHOWS : OTHERWISE),
      catalogue[id].weight,
    ),
  }));
  const total = weighed.reduce((sum, { weight }) => sum + weight, 0);
  return weighed
    .map(({ id, weight }) => ({ id, probability: weight / total }))
    .filter(({ probability }) => probability > NEGLIGIBLE)
    .sort((a, b) => b.probability - a.probability);
}
