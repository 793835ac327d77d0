import { optionsOf, type Study } from "../rules/index.ts";
import type { PlannedSite } from "./site-plan-of.ts";

/**
 * Fallback of one charge point when all that share a line take what the managed option allows them together;
 * null while that cannot be told. [A]
 */
export function designedFallbackA(studied: Study, { plan, ungoverned }: PlannedSite): number | null {
  const fallback = optionsOf(studied).find(({ kind }) => kind === "managed")?.fallback;
  if (fallback === undefined || fallback === null || fallback.kind === "unknown") return null;
  const governed = plan.points.filter(({ id }) => !ungoverned.includes(id));
  const sharing = ([0, 1, 2] as const).map(
    (line) => governed.filter(({ lines }) => lines.includes(line)).length,
  );
  const eachA = fallback.value / Math.max(1, ...sharing);
  return eachA < plan.control.minOfferA ? 0 : eachA;
}
