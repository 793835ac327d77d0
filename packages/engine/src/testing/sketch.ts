import { blankJob, blankNode, blankOvercurrent } from "../job/blank.ts";
import type { Job, JobNode } from "../job/index.ts";
import type { Line } from "../quantities/index.ts";
import { type OpenJob, openDocument } from "../supply/index.ts";

/** `[fed from, kind, id, lines]`: one node and the busbar that feeds it. */
export type SketchRow = readonly [from: string, kind: JobNode["kind"], id: string, lines?: readonly Line[]];

/** A blank job whose supply tree is origin, cut-out, and the rows. */
export function sketchJob(phases: 1 | 3, rows: readonly SketchRow[]): Job {
  const all: readonly Line[] = phases === 1 ? ["L1"] : ["L1", "L2", "L3"];
  const joined: readonly SketchRow[] = [["origin", "cut-out", "cut-out"], ...rows];
  return {
    ...blankJob({ id: "sketch", title: "Sketch", jurisdiction: "england", phases }),
    nodes: [
      blankNode("origin", { id: "origin", label: "Supply" }),
      ...joined.map(([, kind, id]) => blankNode(kind, { id, label: id, ...plainFields(kind) } as never)),
    ],
    cables: joined.map(([from, , id, lines = all]) => ({
      id: `to-${id}`,
      from,
      to: id,
      lines: [...lines],
      run: "busbar" as const,
    })),
  };
}

const plainFields = (kind: JobNode["kind"]): object =>
  kind === "load"
    ? { purpose: "other-socket-or-fixed" }
    : kind === "way" || kind === "cut-out"
      ? { overcurrent: blankOvercurrent() }
      : {};

/** Opens a document that a test knows to be sound. */
export function opened(document: Job): OpenJob {
  const result = openDocument(document);
  if (!result.ok) throw new Error(JSON.stringify(result.problems, null, 2));
  return result;
}
