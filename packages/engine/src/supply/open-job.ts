import { type Job, type LocatedJob, locate, type Problem, parseJob } from "../job/index.ts";
import { buildTree } from "./build-tree.ts";
import { brokenReferences } from "./references.ts";
import type { SupplyTree } from "./tree.ts";

/** A job that was read and whose supply is a sound tree: what every later question starts from. */
export interface OpenJob {
  /** As it stands in the file. */
  readonly document: Job;
  /** The same with every fact knowing its place. */
  readonly job: LocatedJob;
  readonly tree: SupplyTree;
}

/** A job with its tree, without the document it was read from. */
export type JobOnTree = Pick<OpenJob, "job" | "tree">;

export type OpenResult =
  | ({ readonly ok: true } & OpenJob)
  | { readonly ok: false; readonly problems: readonly Problem[] };

/** Opens a job file's text. Never throws; every problem carries its place, the value found and the cure. */
export function openJob(text: string): OpenResult {
  const parsed = parseJob(text);
  return parsed.ok ? openDocument(parsed.job) : parsed;
}

/** Opens a job that is already a valid document. */
export function openDocument(document: Job): OpenResult {
  const job = locate(document);
  const built = buildTree(job);
  if (!built.ok) return built;
  const problems = brokenReferences(job, built.tree);
  if (problems.length > 0) return { ok: false, problems };
  return { ok: true, document, job, tree: built.tree };
}
