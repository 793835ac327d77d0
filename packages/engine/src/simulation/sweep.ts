/**
 * Many settings of one load manager over the same days, in one pass.
 *
 * Settings that cannot differ in what they do are run once: the manager knows only limit less margin, and a
 * fallback matters only where something goes wrong or a time-out is over before the next reading comes.
 *
 * @module
 */
import { timesOutBetweenReadings } from "../limiter/index.ts";
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

/** Settings that cannot differ in what they do, together; groups in the order of their first. */
export function alike(plan: SitePlan, settings: readonly Setting[]): readonly (readonly Setting[])[] {
  const groups = new Map<string, Setting[]>();
  for (const setting of settings) {
    const { limitA, marginA, readEveryS, fallbackA } = setting;
    const isTaken = plan.faults.length > 0 || timesOutBetweenReadings(planWith(plan, setting).control);
    const key = [limitA - marginA, readEveryS, isTaken ? `${fallbackA}` : "any"].join();
    const group = groups.get(key);
    if (group === undefined) groups.set(key, [setting]);
    else group.push(setting);
  }
  return [...groups.values()];
}

/** Outcome of every setting, in their order; those that are alike share one. */
export function* sweeping(
  simulation: Simulation,
  settings: readonly Setting[],
): Running<readonly SweptSetting[]> {
  const { plan, watch: _, ...shared } = simulation;
  const groups = alike(plan, settings);
  const plans = groups.map(([first]) => planWith(plan, first as Setting));
  const outcomes = yield* running({ ...shared, plans });
  const outcomeOf = new Map(
    groups.flatMap((group, index) => group.map((setting) => [setting, outcomes[index] as SiteOutcome])),
  );
  return settings.map((setting) => ({ setting, outcome: outcomeOf.get(setting) as SiteOutcome }));
}
