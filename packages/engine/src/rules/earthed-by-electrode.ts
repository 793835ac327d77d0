import type { PointCircuit, Study } from "./study.ts";

/** True where a charge point's earth is an electrode: the installation's, or one of its own. */
export function isEarthedByElectrode({ job }: Study, { point }: PointCircuit): boolean {
  const { arrangement } = job.earthing;
  const { method } = point.openPen;
  return (
    (arrangement.state === "known" && arrangement.value === "TT") ||
    (method.state === "known" && method.value === "separate-electrode")
  );
}
