import type { BuildingDemand } from "../simulation/index.ts";

/** Where the building's current comes from. */
export interface BuildingSource extends BuildingDemand {
  readonly kind: "recorded" | "drawn";
  /** Whole days that are there before they repeat; Infinity for one that is drawn. */
  readonly days: number;
  readonly intervalS: number;
  /** First day recorded, year-month-day; null for one that is drawn. */
  readonly from: string | null;
  /** Labels of loads the recordings do not contain. */
  readonly lacks: readonly string[];
  /** Labels of the loads a recording is taken to contain, because nothing says that it lacks them. */
  readonly contains?: readonly string[];
  /** Labels of generators that lessened what was recorded of the supply. */
  readonly generators?: readonly string[];
  /** Labels of loads it lacked that were drawn on top. */
  readonly adds?: readonly string[];
  /** Share of its readings that were estimated or are questionable. */
  readonly unsureShare?: number;
  /** Whether one value was recorded for all lines, and equal sharing is assumed. */
  readonly isSharedEqually?: boolean;
  /** Whether it was given beside the job, whose own demand may be another. */
  readonly isGiven?: boolean;
}
