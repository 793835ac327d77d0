import {
  alike,
  type BuildingSource,
  finished,
  openJob,
  readyBuilding,
  readySite,
  type Setting,
  type SitePlan,
  type SweptSetting,
  study,
  sweeping,
} from "@underfuse/engine";
import { GREAT_BRITAIN } from "@underfuse/knowledge";
import { type DemandDays, demandBuilding } from "./demand-file.ts";
import type { LoadedJob } from "./load-job.ts";
import type { Work } from "./worker-pool.ts";

/** A job as it can be sent to a thread: its text and its recordings. */
export interface SweepShared {
  readonly text: string;
  readonly series: LoadedJob["series"];
  readonly unread: LoadedJob["unread"];
  readonly onIso: string;
  /** A recording given instead of the job's own. */
  readonly demand: DemandDays | null;
  readonly days: number;
  readonly seed: number;
}

/** Settings of one piece, with their places in the whole. */
export type SweepPiece = readonly { readonly place: number; readonly setting: Setting }[];
export type SweepResult = readonly { readonly place: number; readonly swept: SweptSetting }[];

/** Pieces to a thread: enough to show progress, few enough that the building is not drawn for each setting. */
const PIECES_A_THREAD = 4;

export const SWEEP_WORK: Work<SweepShared, SweepPiece, SweepResult> = {
  name: "sweep",
  prepare: ({ text, series, unread, onIso, demand, days, seed }) => {
    const open = openJob(text);
    if (!open.ok) throw new Error("The job did not open on a thread.");
    const studied = study(open, GREAT_BRITAIN, { onIso, series, unread });
    const site = readySite(studied);
    const building =
      demand === null ? readyBuilding(studied, seed) : given(demandBuilding(demand, studied, seed));
    if (!site.ok || !building.ok) throw new Error("The job could not be made ready on a thread.");
    const { plan, habits } = site.value;
    return (piece) => {
      const simulation = { plan, habits, building: building.value, days, seed };
      const swept = finished(
        sweeping(
          simulation,
          piece.map(({ setting }) => setting),
        ),
      );
      return swept.map((one, index) => ({ place: piece[index]?.place as number, swept: one }));
    };
  },
};

const given = (value: BuildingSource) => ({ ok: true, value }) as const;

/** Cuts the settings into pieces; those that are alike stay together. */
export function sweepPieces(
  plan: SitePlan,
  settings: readonly Setting[],
  threads: number,
): readonly SweepPiece[] {
  const places = new Map(settings.map((setting, place) => [setting, place]));
  const groups = alike(plan, settings);
  const count = Math.min(groups.length, threads * PIECES_A_THREAD);
  return Array.from({ length: count }, (_, piece) =>
    groups
      .filter((_group, index) => index % count === piece)
      .flat()
      .map((setting) => ({ place: places.get(setting) as number, setting })),
  );
}
