import { GREAT_BRITAIN } from "@underfuse/knowledge";
import type { IntervalSeries } from "../demand/index.ts";
import type { Job } from "../job/index.ts";
import { type Study, study } from "../rules/index.ts";
import { openDocument } from "../supply/index.ts";
import { type PlannedSite, sitePlanOf } from "../through-time/index.ts";

/** A job studied on a fixed day with real knowledge. */
export function studied(job: Job, series: ReadonlyMap<string, IntervalSeries> = new Map()): Study {
  const open = openDocument(job);
  if (!open.ok) throw new Error(JSON.stringify(open.problems, null, 2));
  return study(open, GREAT_BRITAIN, { onIso: "2026-11-25", series });
}

export function plannedSite(of: Study): PlannedSite {
  const result = sitePlanOf(of);
  if (!result.ok) throw new Error(JSON.stringify(result.missing));
  return result.site;
}
