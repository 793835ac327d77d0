import { hiddenPeakRatios } from "@underfuse/engine";
import type { SeriesTotals } from "@underfuse/intake";
import { GREAT_BRITAIN } from "@underfuse/knowledge";

/** Where the highest minute behind a greatest mean may lie, and on what ground. */
export interface MinuteBehind {
  readonly low: number;
  readonly high: number;
  readonly unit: "W" | "A";
  /** Times as high as the mean. */
  readonly ratios: { readonly low: number; readonly high: number };
  readonly basis: string;
}

const MINUTE_S = 60;

/** Null where no band can be given: intervals of a minute or less, nothing recorded, or nothing taken in. */
export function minuteBehind(stepS: number, greatest: SeriesTotals["greatestMean"]): MinuteBehind | null {
  if (greatest === null || greatest.value < 0 || stepS <= MINUTE_S) return null;
  const { seen, citation } = hiddenPeakRatios(stepS / MINUTE_S, GREAT_BRITAIN.demand.peakRatios);
  const { value, unit } = greatest;
  return {
    low: value * seen.low,
    high: value * seen.high,
    unit,
    ratios: seen,
    basis: [citation.at, citation.remark].filter((part) => part !== undefined).join(". "),
  };
}
