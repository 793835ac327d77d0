import type { SiteOutcome } from "../simulation/index.ts";
import { type BuildingSource, hidesPeaks, type PlannedSite } from "../through-time/index.ts";
import { durationWords, withUnit } from "./format.ts";
import { days } from "./told-figures.ts";

interface Remarked {
  readonly building: BuildingSource;
  readonly outcome: Pick<SiteOutcome, "absentH" | "days">;
  readonly site: Pick<PlannedSite, "ungoverned" | "isManagerImagined">;
}

/** What a run leaves open, whatever came of it. */
export function remarksOf({ building, outcome, site }: Remarked): readonly string[] {
  return [
    ...(hidesPeaks(building)
      ? [
          `The building is known as means of ${withUnit(building.intervalS / 60, "min", 0)}: shorter peaks are hidden, and time over the limit and the life of the fuse come out too low. Record by the minute before you rely on them.`,
        ]
      : []),
    ...(building.isGiven === true
      ? [
          "The recording was given beside the job. The checks and the options of the job rest on the demand recorded in it, which may be lower: record this one in the job, so that both agree.",
        ]
      : []),
    ...(building.isSharedEqually === true
      ? [
          "One value was recorded for all lines together; it is shared equally, and the fullest line comes out too low. Record each line.",
        ]
      : []),
    ...(building.generators !== undefined && building.generators.length > 0
      ? [
          `What was recorded is less what ${building.generators.join(", ")} gave at the time: on a dull day the supply carries more than these days show.`,
        ]
      : []),
    ...(outcome.absentH > 0
      ? [
          `${durationWords(outcome.absentH * 3600)} of the ${days(outcome.days)} were not recorded; the current before each gap was held, which proves nothing of those hours.`,
        ]
      : []),
    ...(building.adds !== undefined && building.adds.length > 0
      ? [`The recording does not contain ${building.adds.join(", ")}: drawn on top from published use.`]
      : []),
    ...(building.kind === "drawn"
      ? [
          "No recording: the building is drawn from published figures of appliances and the circuits of the job. It is a plausible dwelling, not this one; record two weeks before you rely on it.",
        ]
      : []),
    ...(building.lacks.length > 0
      ? [`The recording does not contain ${building.lacks.join(", ")}: what it adds is not in this run.`]
      : []),
    ...(Number.isFinite(building.days) && outcome.days > building.days
      ? [`${days(building.days)} were recorded and repeat.`]
      : []),
    ...(site.isManagerImagined
      ? [
          "The job has no load manager. This run imagines one with usual settings; without one nothing turns a car down, and nothing told here of the supply holds.",
        ]
      : []),
    ...(site.ungoverned.length > 0
      ? [`No load manager governs ${site.ungoverned.join(", ")}: cars there take what they can.`]
      : []),
  ];
}
