import type { CableRun } from "../circuits/index.ts";
import { blankCableRun } from "../job/blank.ts";
import { type Job, known, notApplicable } from "../job/index.ts";
import type { Line } from "../quantities/index.ts";
import type { SupplyCable } from "../supply/index.ts";
import { opened, sketchJob } from "./sketch.ts";

type DocumentRun = Extract<Job["cables"][number]["run"], object>;

/** A fully described copper cable clipped to a wall, alone, at 30 °C; change what the test is about. */
export function describedRun(changes: Partial<DocumentRun> = {}): DocumentRun {
  return {
    ...blankCableRun(),
    construction: known("flat-twin-and-earth"),
    insulation: known("pvc-70"),
    metal: known("copper"),
    lineMm2: known(6),
    neutralMm2: changes.lineMm2 ?? known(6),
    protective: { form: known("core"), mm2: known(2.5) },
    terminalC: known(70),
    lengthM: known(25),
    method: known("C"),
    ambientC: known(30),
    groupedCircuits: known(1),
    grouping: notApplicable("alone"),
    inInsulationMm: known(0),
    soilThermalResistivityKmW: notApplicable("above ground"),
    burialDepthM: notApplicable("above ground"),
    ...changes,
  };
}

/** A cable of a supply tree with that run, its facts located. */
export function cableWith(
  changes: Partial<DocumentRun> = {},
  lines: readonly Line[] = ["L1"],
): SupplyCable & { run: CableRun } {
  const job = sketchJob(lines.length === 3 ? 3 : 1, [["cut-out", "load", "end"]]);
  const cables = job.cables.map((cable) =>
    cable.to === "end" ? { ...cable, lines: [...lines], run: describedRun(changes) } : cable,
  );
  return opened({ ...job, cables }).tree.cable("to-end") as SupplyCable & { run: CableRun };
}
