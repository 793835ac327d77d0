/**
 * What a building known only by means longer than a minute leaves open about the main fuse.
 *
 * A fuse answers to minutes, and a mean hides them. What fails on means fails on minutes too.
 *
 * @module
 */
import { type HiddenPeak, hiddenPeak } from "../demand/index.ts";
import type { Line } from "../quantities/index.ts";
import type { Study } from "../rules/index.ts";
import type { BuildingSource } from "./building-source.ts";

export interface HiddenDemand {
  /** Time that each mean of the building is taken over. [s] */
  readonly intervalS: number;
  readonly lines: readonly HiddenOnLine[];
}

export interface HiddenOnLine {
  readonly line: Line;
  /** Highest mean of the building; null where nothing was recorded, or nothing that can be. [A] */
  readonly highestMeanA: number | null;
  /** Where the minute behind it may lie, with the largest shower of the line on top; null where none can be given. */
  readonly peak: HiddenPeak | null;
}

const MINUTE_S = 60;
/** Most that the table of peak ratios is for. [A] */
const MOST_A = 10_000;

/** Whether a building's intervals hide what the main fuse answers to. */
export const hidesPeaks = ({ intervalS }: Pick<BuildingSource, "intervalS">): boolean => intervalS > MINUTE_S;

/** What is left open by a building over so many days; null where its intervals hide nothing. */
export function hiddenDemand(study: Study, building: BuildingSource, days: number): HiddenDemand | null {
  if (!hidesPeaks(building)) return null;
  const { lines, tree, knowledge } = study;
  const most = highestMeans(building, Math.min(days, building.days), lines.length);
  return {
    intervalS: building.intervalS,
    lines: lines.map((line, index): HiddenOnLine => {
      const highestMeanA = most[index] as number;
      if (!(highestMeanA >= 0 && highestMeanA <= MOST_A)) return { line, highestMeanA: null, peak: null };
      const showersA = tree
        .endsCarried(tree.serviceCable, line)
        .flatMap((end) =>
          end.kind === "load" && end.purpose === "instantaneous-water-heater" && end.ratedA.state === "known"
            ? [end.ratedA.value]
            : [],
        );
      const shortLoad = showersA.length === 0 ? {} : { shortLoadA: Math.max(...showersA) };
      const averagingMin = building.intervalS / MINUTE_S;
      return {
        line,
        highestMeanA,
        peak: hiddenPeak({ highestMeanA, averagingMin, ...shortLoad }, knowledge.demand.peakRatios),
      };
    }),
  };
}

/** NaN for a line of which nothing was recorded. */
function highestMeans(building: BuildingSource, days: number, lineCount: number): readonly number[] {
  const dayA = new Float64Array(building.intervalsPerDay * lineCount);
  const most = new Array<number>(lineCount).fill(Number.NaN);
  for (let day = 0; day < days; day++) {
    building.fill(day, dayA);
    for (let at = 0; at < dayA.length; at++) {
      const currentA = dayA[at] as number;
      if (!(currentA <= (most[at % lineCount] as number)) && !Number.isNaN(currentA))
        most[at % lineCount] = currentA;
    }
  }
  return most;
}
