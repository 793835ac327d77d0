import type { ObservationModel } from "./observation-model.ts";

/**
 * Places of the state that readings are weighed with: for each line active and reactive power of the
 * building; the share of its current the car draws; the tangent of the car's phase angle, beside the
 * usual one; for each channel errors of ratio and of angle. Behind them, only where a hypothesis needs
 * them, what the car draws otherwise on each line, and what each loose terminal takes away.
 */
export interface SitePlaces {
  readonly carShare: number;
  readonly carTan: number;
  readonly gain: number;
  readonly angle: number;
  readonly carOnLine: number;
  readonly loose: number;
  readonly capacity: number;
}

export const placesFor = (lines: number): SitePlaces => {
  const carShare = 2 * lines;
  const gain = carShare + 2;
  const carOnLine = gain + 2 * lines;
  const loose = carOnLine + lines;
  return {
    carShare,
    carTan: carShare + 1,
    gain,
    angle: gain + lines,
    carOnLine,
    loose,
    capacity: loose + MOST_LOOSE,
  };
};

/** A pair of faults is two loose terminals at most. */
const MOST_LOOSE = 2;

/** Places a hypothesis uses. */
export const sizeUnder = ({ loose, carLineSd }: ObservationModel, places: SitePlaces): number =>
  loose.length > 0 ? places.loose + loose.length : carLineSd > 0 ? places.loose : places.carOnLine;
