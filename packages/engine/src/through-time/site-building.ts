/**
 * The building of a job: as recorded, with what the recording lacks; drawn where there is none.
 *
 * @module
 */
import type { Study } from "../rules/index.ts";
import type { BuildingSource } from "./building-source.ts";
import { drawnDwelling, withLacking } from "./drawn-building.ts";
import type { Ready } from "./ready-site.ts";
import { type RecordedBuilding, recordedBuilding } from "./recorded-building.ts";

/** A recorded building with what it lacks drawn on top, as far as that can be, and what it is taken to contain. */
export function recordedSource(
  recorded: RecordedBuilding & Pick<BuildingSource, "isSharedEqually" | "unsureShare">,
  studied: Study,
  seed: number,
): BuildingSource {
  const { tree } = studied;
  const ends = [...tree.ofKind("load"), ...tree.ofKind("storage")];
  const [lacking, contained] = [true, false].map((isLacking) =>
    ends.filter(({ id }) => recorded.lacks.includes(id) === isLacking),
  ) as [typeof ends, typeof ends];
  const labels = (nodes: typeof ends): readonly string[] => nodes.map(({ label }) => label);
  const source = {
    ...recorded,
    kind: "recorded",
    lacks: labels(lacking),
    contains: labels(contained),
    generators: tree.ofKind("generator").map(({ label }) => label),
  } as const;
  const loads = lacking.filter((node) => node.kind === "load");
  return withLacking(source, loads, studied, seed);
}

/** The building of a job: as recorded, with what the recording lacks; drawn where there is none. */
export function readyBuilding(studied: Study, seed: number): Ready<BuildingSource> {
  const recorded = recordedBuilding(studied);
  if (recorded.ok) return { ok: true, value: recordedSource(recorded.building, studied, seed) };
  if (recorded.because === "differ")
    return {
      ok: false,
      because: `the recordings of ${recorded.lines.join(", ")} begin on another day or have other intervals than the first line's. Record all lines together.`,
    };
  if (recorded.because === "empty")
    return {
      ok: false,
      because: `the recording of ${recorded.lines.join(", ")} holds no reading in the days that the job names: compare from and until under demand.recordings with the file.`,
    };
  const [unread] = studied.inputs.unread ?? [];
  if (unread !== undefined)
    return {
      ok: false,
      because: `recording "${unread[0]}", ${unread[1]}. Correct it, or take it out of the job; nothing is drawn in its place.`,
    };
  const drawn = drawnDwelling(studied, seed);
  if (drawn !== null) return { ok: true, value: drawn };
  return {
    ok: false,
    because: `there is no recording of ${recorded.lines.join(", ")} that could be read, and ${whyNotDrawn(studied)} Record the supply for two weeks and enter it under demand.recordings, or give the recording with --demand.`,
  };
}

/** Why no dwelling can be drawn in place of a recording, and what would change it. */
function whyNotDrawn({ job: { site }, lines }: Study): string {
  if (lines.length > 1) return "only a dwelling on one line can be drawn instead.";
  if (site.premises.state !== "known")
    return "what could be drawn instead depends on site.premises, the kind of premises, which is not recorded: record it, and a dwelling is drawn.";
  if (site.premises.value !== "dwelling")
    return `only a dwelling can be drawn instead; site.premises is ${site.premises.value}.`;
  return "the nominal voltage, supply.nominalVoltageV, is not recorded.";
}
