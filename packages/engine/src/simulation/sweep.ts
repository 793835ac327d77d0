/**
 * Many settings of one load manager over the same days, in one pass.
 *
 * Settings that cannot differ in what they do are run once: the manager knows only limit less margin, and a
 * fallback matters only where something goes wrong.
 *
 * @module
 */
import type { SiteOutcome } from "./outcome.ts";
import { type Running, running, type Simulation } from "./simulate.ts";
import type { SitePlan } from "./site-plan.ts";

/** What a sweep changes. */
export interface Setting {
  readonly limitA: number;
  readonly marginA: number;
  readonly readEveryS: number;
  readonly fallbackA: number | null;
}

export interface SweptSetting {
  readonly setting: Setting;
  readonly outcome: SiteOutcome;
}

/** Every combination, in the order of the lists. */
export const settingsOf = (grid: {
  readonly limitA: readonly number[];
  readonly marginA: readonly number[];
  readonly readEveryS: readonly number[];
  readonly fallbackA: readonly (number | null)[];
}): readonly Setting[] =>
  grid.limitA.flatMap((limitA) =>
    grid.marginA.flatMap((marginA) =>
      grid.readEveryS.flatMap((readEveryS) =>
        grid.fallbackA.map((fallbackA) => ({ limitA, marginA, readEveryS, fallbackA })),
      ),
    ),
  );

/** The plan with a setting in place of its own. */
export const planWith = (plan: SitePlan, setting: Setting): SitePlan => ({
  ...plan,
  control: { ...plan.control, ...setting },
});

/** Outcome of every setting, in their order. */
export function* sweeping(
  simulation: Simulation,
  settings: readonly Setting[],
): Running<readonly SweptSetting[]> {
  const { plan } = simulation;
  const places = new Map<string, number>();
  const plans: SitePlan[] = [];
  const at = settings.map((setting) => {
    const key = [
      setting.limitA - setting.marginA,
      setting.readEveryS,
      plan.faults.length > 0 ? setting.fallbackA : "any",
    ].join();
    const known = places.get(key);
    if (known !== undefined) return known;
    places.set(key, plans.length);
    return plans.push(planWith(plan, setting)) - 1;
  });
  const { plan: _, watch: __, ...shared } = simulation;
  const outcomes = yield* running({ ...shared, plans });
  return settings.map((setting, index) => ({
    setting,
    outcome: outcomes[at[index] as number] as SiteOutcome,
  }));
}
