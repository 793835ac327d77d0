import type { IntervalSeries } from "../demand/index.ts";
import type { Line } from "../quantities/index.ts";
import type { Study } from "../rules/index.ts";
import type { BuildingDemand } from "../simulation/index.ts";

/** A recording of every line of the supply, as the simulation takes it. */
export interface RecordedBuilding extends BuildingDemand {
  /** Whole days recorded. */
  readonly days: number;
  readonly intervalS: number;
  /** First day, year-month-day. */
  readonly from: string;
  /** Loads the recordings are said not to contain, by id. */
  readonly lacks: readonly string[];
}

export type RecordedBuildingResult =
  | { readonly ok: true; readonly building: RecordedBuilding }
  | {
      readonly ok: false;
      readonly because: "no-recording" | "differ" | "empty";
      readonly lines: readonly Line[];
    };

const DAY_S = 86_400;

/** The recordings of a job side by side; days beyond the last are the first ones again. */
export function recordedBuilding({ job, lines, inputs }: Study): RecordedBuildingResult {
  const found = lines.map((line) => {
    const recordings = job.demand.recordings.filter(
      (item) => item.line === line && inputs.series.has(item.id),
    );
    const lengthOf = (id: string) => (inputs.series.get(id) as IntervalSeries).currentA.length;
    return recordings.toSorted((a, b) => lengthOf(b.id) - lengthOf(a.id))[0];
  });
  const without = lines.filter((_, index) => found[index] === undefined);
  if (without.length > 0) return { ok: false, because: "no-recording", lines: without };
  const recordings = found as NonNullable<(typeof found)[number]>[];
  const series = recordings.map(({ id }) => inputs.series.get(id) as IntervalSeries);
  const intervalS = series[0]?.intervalS ?? 60;
  const froms = recordings.map((item) => (item.kind === "interval-series" ? item.from : ""));
  const from = froms[0] as string;
  const differing = lines.filter(
    (_, index) => series[index]?.intervalS !== intervalS || froms[index] !== from,
  );
  if (differing.length > 0) return { ok: false, because: "differ", lines: differing };
  const empty = lines.filter((_, index) => !holdsReadings(series[index]));
  if (empty.length > 0) return { ok: false, because: "empty", lines: empty };
  return {
    ok: true,
    building: {
      ...buildingOf(series),
      from,
      lacks: [...new Set(recordings.flatMap(({ doesNotInclude }) => doesNotInclude))],
    },
  };
}

/** Whether a series has a single reading. */
export const holdsReadings = (series: IntervalSeries | undefined): boolean =>
  series?.currentA.some((current) => !Number.isNaN(current)) === true;

/** Series of equal interval from one midnight, one for each line, as a building; days beyond the last repeat. */
export function buildingOf(
  series: readonly IntervalSeries[],
): BuildingDemand & { readonly days: number; readonly intervalS: number } {
  const intervalS = series[0]?.intervalS ?? 60;
  const intervalsPerDay = DAY_S / intervalS;
  const shortest = Math.min(...series.map(({ currentA }) => currentA.length));
  const days = Math.floor(shortest / intervalsPerDay);
  return {
    intervalsPerDay,
    intervalS,
    days,
    fill: (day, intoA) => {
      const start = (day % days) * intervalsPerDay;
      for (let interval = 0; interval < intervalsPerDay; interval++)
        for (let line = 0; line < series.length; line++)
          intoA[interval * series.length + line] = series[line]?.currentA[start + interval] as number;
    },
  };
}
