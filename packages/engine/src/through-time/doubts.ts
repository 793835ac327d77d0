/**
 * What keeps a run from vouching for the supply, whatever came of it.
 *
 * The one rule: with a doubt nothing about the supply passes. What fails fails all the same.
 *
 * @module
 */
import type { SiteOutcome } from "../simulation/index.ts";
import type { BuildingSource } from "./building-source.ts";
import { hidesPeaks } from "./hidden-demand.ts";
import type { PlannedSite } from "./site-plan-of.ts";

/**
 * `means`: the building is known by means longer than a minute. `drawn`: it was drawn, in whole or in part.
 * `lacking`: the recording lacks loads that nothing stands in for. `gaps`: too much of it was not recorded.
 * `shared`: one value for all lines was shared equally. `lessened`: a generator gave part of what was drawn, and gives
 * less on a dull day. `unsure`: too much of it is estimated or questionable. `short`: less than a week was recorded.
 * `no-manager`: the job has none, and one was imagined. `misplaced`: a transformer misses part of what the fuse carries.
 */
export type Doubt =
  | "means"
  | "drawn"
  | "lacking"
  | "gaps"
  | "shared"
  | "lessened"
  | "unsure"
  | "short"
  | "no-manager"
  | "misplaced";

/** Share of the time that may be absent, or of the readings not read off. Own judgement ([house-methods]). */
const MOST_ABSENT = 0.01;
/** Days that show how a week goes. Own judgement ([house-methods]). */
const LEAST_DAYS = 7;

export function doubtsOf({
  building,
  outcome,
  site,
}: {
  readonly building: BuildingSource;
  readonly outcome: Pick<SiteOutcome, "absentH" | "days">;
  readonly site: Pick<PlannedSite, "isManagerImagined" | "misplaced">;
}): readonly Doubt[] {
  const doubts: readonly (readonly [Doubt, boolean])[] = [
    ["means", hidesPeaks(building)],
    ["drawn", building.kind === "drawn" || (building.adds ?? []).length > 0],
    ["lacking", building.lacks.length > 0],
    ["gaps", outcome.absentH > MOST_ABSENT * 24 * outcome.days],
    ["shared", building.isSharedEqually === true],
    ["lessened", (building.generators ?? []).length > 0],
    ["unsure", (building.unsureShare ?? 0) > MOST_ABSENT],
    ["short", building.days < LEAST_DAYS],
    ["no-manager", site.isManagerImagined],
    ["misplaced", site.misplaced.length > 0],
  ];
  return doubts.flatMap(([doubt, isThere]) => (isThere ? [doubt] : []));
}

/** A tone about the supply as doubts allow it: what would pass cannot be told. */
export const underDoubts = <Tone extends string>(tone: Tone, doubts: readonly Doubt[]): Tone | "unknown" =>
  doubts.length > 0 && tone === "pass" ? "unknown" : tone;
