/** What a building may draw on one line before anything of it is known, and how it wanders between steps. */
export interface LoadScale {
  readonly meanW: number;
  readonly sdW: number;
  /** Reactive over active power, and what it strays by. [1], [var] */
  readonly tan: number;
  readonly sdVar: number;
  readonly driftW: number;
  readonly driftVar: number;
}

/** Usual voltage of a supply, line to neutral. [V] */
export const SUPPLY_V = 238;

/** Own judgement, from what a dwelling or a small hall draws on one line. */
const TYPICAL = { meanW: 1000, sdW: 1500, tan: 0.2, sdVar: 450 };
const drifting = (amps: number, reactive: number) => ({
  driftW: SUPPLY_V * amps,
  driftVar: SUPPLY_V * amps * reactive,
});

/** How buildings behave while they are tested. The mixture of the first three is what is usually met. */
export const QUIET_LOAD: LoadScale = { ...TYPICAL, ...drifting(0.25, 0.35) };
export const SMALL_LOAD: LoadScale = { meanW: 600, sdW: 900, tan: 0.2, sdVar: 220, ...drifting(0.6, 0.25) };
export const USUAL_LOAD: LoadScale = { ...TYPICAL, ...drifting(1, 0.35) };
export const RESTLESS_LOAD: LoadScale = { ...TYPICAL, ...drifting(8, 0.35) };
