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
  const { offerStepA, minOfferA } = plan.control;
  const eachA = fallback.value / Math.max(1, ...sharing);
  // A charge point offers whole steps.
  const offeredA = Math.floor(eachA / offerStepA + 1e-9) * offerStepA;
  return offeredA < minOfferA ? 0 : offeredA;
}
