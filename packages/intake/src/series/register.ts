import type { Notes } from "../notes.ts";
import type { Placed } from "./placed.ts";
import { ABSENT, ESTIMATED, isDoubtfulQuality, RECORDED } from "./quality.ts";

/**
 * Energy of each interval from what a register stood at.
 *
 * The reading at the start of an interval is taken from the next one. Where either is absent the energy is
 * absent: how much passed in a gap is known, when it passed is not. A register that falls from its last tenth
 * to its first has rolled over; one that falls otherwise refuses the file.
 */
export function energyFromRegister({ startMs, channels, lineOf }: Placed, notes: Notes): Placed {
  return {
    startMs,
    lineOf,
    channels: channels.map(({ values, quality, duplicateCount }) => {
      const size = Math.max(0, values.length - 1);
      const energy = new Float64Array(size).fill(Number.NaN);
      const marks = new Uint8Array(size).fill(ABSENT);
      const range = rangeOf(values);
      let [rolls, gapKwh, gapCount, lastAt] = [0, 0, 0, -1];
      for (let at = 0; at < values.length; at++) {
        const value = values[at] as number;
        if (Number.isNaN(value)) continue;
        if (lastAt >= 0) {
          const before = values[lastAt] as number;
          let difference = value - before;
          if (difference < 0) {
            if (before < 0.9 * range || value > 0.1 * range) {
              notes.refuse({
                code: "REGISTER_FALLS",
                line: lineOf(at),
                found: `${value} after ${before}`,
                message:
                  "A register only rises, or rolls over from all nines. If the meter was changed, import the time before and after apart.",
              });
              return { values: energy, quality: marks, duplicateCount };
            }
            difference += range;
            rolls++;
          }
          if (at === lastAt + 1) {
            energy[lastAt] = difference;
            marks[lastAt] =
              isDoubtfulQuality(quality[at] as number) || isDoubtfulQuality(quality[lastAt] as number)
                ? ESTIMATED
                : RECORDED;
          } else {
            gapKwh += difference;
            gapCount++;
          }
        }
        lastAt = at;
      }
      if (rolls > 0) notes.remark("register", `The register rolled over ${rolls} times at ${range}.`);
      if (gapCount > 0)
        notes.remark(
          "register",
          `${gapKwh} kWh passed in ${gapCount} gaps of the readings; when is not known, so it is in no interval.`,
        );
      return { values: energy, quality: marks, duplicateCount };
    }),
  };
}

/** The power of ten at which a register that has shown these values starts again. */
function rangeOf(values: Float64Array): number {
  let most = 1;
  for (const value of values) if (value > most) most = value;
  return 10 ** Math.floor(Math.log10(most) + 1);
}

/** True where values never fall and do rise: what a register does, and a meter of intervals hardly ever. */
export function isRising(values: Float64Array): boolean {
  let [last, rises] = [Number.NaN, 0];
  for (const value of values) {
    if (Number.isNaN(value)) continue;
    if (value < last) return false;
    if (value > last) rises++;
    last = value;
  }
  return rises > 0;
}
