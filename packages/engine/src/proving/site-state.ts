import type { Complex } from "../quantities/index.ts";

/**
 * Voltages and currents of a site at one moment, one entry for each line.
 *
 * rms phasors with one reference. Currents of building and charge points run from the supply to the
 * load, the current of the generation from the source to the supply; the main fuse carries
 * building + charge points − generation.
 */
export interface SiteState {
  readonly voltageV: readonly Complex[];
  readonly buildingA: readonly Complex[];
  readonly chargePointA: readonly Complex[];
  readonly generationA: readonly Complex[];
}
