import {
  type BuildingSource,
  drawnDwelling,
  type PlannedSite,
  recordedBuilding,
  type Study,
  sitePlanOf,
  withLacking,
} from "@underfuse/engine";

/** A job made ready to run, or why it cannot be. */
export type ReadySite =
  | { readonly ok: true; readonly site: PlannedSite; readonly building: BuildingSource }
  | { readonly ok: false; readonly because: string };

/** A job with its building: as recorded, with what the recording lacks; drawn where there is none. */
export function readySite(studied: Study, seed: number): ReadySite {
  const planned = sitePlanOf(studied);
  if (!planned.ok)
    return {
      ok: false,
      because: `nothing can be simulated before this is known: ${planned.missing.map(({ label }) => label).join("; ")}.`,
    };
  const { site } = planned;
  if (site.plan.points.length === 0)
    return { ok: false, because: "the job has no charge point to simulate." };
  const recorded = recordedBuilding(studied);
  if (recorded.ok) {
    const { building } = recorded;
    const lacking = building.lacks.map((id) => studied.tree.node(id));
    const source = { ...building, kind: "recorded" as const, lacks: lacking.map(({ label }) => label) };
    const loads = lacking.filter((node) => node.kind === "load");
    return { ok: true, site, building: withLacking(source, loads, studied, seed) };
  }
  if (recorded.because === "differ")
    return {
      ok: false,
      because: `the recordings of ${recorded.lines.join(", ")} begin on another day or have other intervals than the first line's. Record all lines together.`,
    };
  const drawn = drawnDwelling(studied, seed);
  if (drawn !== null) return { ok: true, site, building: drawn };
  return {
    ok: false,
    because: `there is no recording of ${recorded.lines.join(", ")} that could be read, and only a dwelling on one line can be drawn instead. Record the supply for two weeks and enter it under demand.`,
  };
}
