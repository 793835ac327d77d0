import type { Insulation, JobCable, Located, LocatedFact } from "../job/index.ts";
import type { SupplyCable } from "../supply/index.ts";
import type { Quantity } from "../worked/index.ts";

/** A described cable with its facts located. */
export type CableRun = Located<Extract<JobCable["run"], object>>;

/** A quantity that cannot be had because a cable on the way was never described. */
export const notSurveyed = (
  cable: SupplyCable,
  named: { readonly symbol: string; readonly label: string; readonly unit: string },
): Quantity => ({
  kind: "unknown",
  ...named,
  missing: [
    { path: `cables[${cable.id}].run`, label: `description of the cable ${cable.name}`, what: "fact" },
  ],
});

/**
 * The table a cable is rated from: its insulation, or 70 °C where its terminals are not rated for more.
 * Null while either is unknown.
 */
export function ratedAs(run: CableRun): Insulation | null {
  if (run.insulation.state !== "known" || run.terminalC.state !== "known") return null;
  return run.terminalC.value === 70 ? "pvc-70" : run.insulation.value;
}

/**
 * The size that limits a cable whose neutral carries as much as its line: the smaller of the two; the line's
 * while the neutral is not known, which a rule of its own asks for.
 */
export function smallerLive({ lineMm2, neutralMm2 }: CableRun): LocatedFact<number> {
  const isNeutral =
    lineMm2.state === "known" && neutralMm2.state === "known" && neutralMm2.value < lineMm2.value;
  return isNeutral ? neutralMm2 : lineMm2;
}
