import type { Study } from "../rules/index.ts";
import { type PlannedSite, sitePlanOf } from "./site-plan-of.ts";

/** Something that can be run, or why it cannot, in a sentence without its capital. */
export type Ready<T> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly because: string };

/** The plan of a job with a charge point. */
export function readySite(studied: Study): Ready<PlannedSite> {
  const planned = sitePlanOf(studied);
  if (!planned.ok)
    return {
      ok: false,
      because: `nothing can be simulated before this is known: ${planned.missing.map(({ label, path }) => `${label} (${path})`).join("; ")}.`,
    };
  if (planned.site.plan.points.length === 0)
    return { ok: false, because: "the job has no charge point to simulate." };
  return { ok: true, value: planned.site };
}
