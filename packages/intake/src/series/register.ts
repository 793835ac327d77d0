import type { Notes } from "../notes.ts";
import { movementOf } from "./movement.ts";
import type { Placed } from "./placed.ts";
import { ABSENT, ESTIMATED, isDoubtfulQuality, RECORDED } from "./quality.ts";

/** More energy in one interval than so many times that of any other is not believed of a roll-over. */
const MAX_ROLL_RATIO = 2;

/**
 * Energy of each interval from what a register stood at.
 *
 * The reading at the start of an interval is taken from the next one. Where either is absent the energy is
 * absent: how much passed in a gap is known, when it passed is not. A register has rolled over that falls from its
 * last tenth to its first by no more energy than other intervals had; one that falls otherwise refuses the file,
 * because a meter that was exchanged or a counter that starts anew falls too.
 *
 * @param stepS Length of an interval. [s]
 */
export function energyFromRegister(
  { startMs, channels, lineOf }: Placed,
  stepS: number,
  notes: Notes,
): Placed {
  return {
    startMs,
    lineOf,
    channels: channels.map(({ values, quality, duplicateCount }) => {
      const size = Math.max(0, values.length - 1);
      const energy = new Float64Array(size).fill(Number.NaN);
      const marks = new Uint8Array(size).fill(ABSENT);
      const range = rangeOf(values);
      const mostRolled = MAX_ROLL_RATIO * greatestRise(values);
      let [rolls, firstRoll, gapKwh, gapCount, lastAt] = [0, 0, 0, 0, -1];
      for (let at = 0; at < values.length; at++) {
        const value = values[at] as number;
        if (Number.isNaN(value)) continue;
        if (lastAt >= 0) {
          const before = values[lastAt] as number;
          let difference = value - before;
          if (difference < 0) {
            difference += range;
            const isRoll = before >= 0.9 * range && value <= 0.1 * range;
            if (!isRoll || difference > mostRolled * (at - lastAt)) {
              notes.refuse({
                code: "REGISTER_FALLS",
                line: lineOf(at),
                found: `${value} after ${before}`,
                message: movementOf(values, stepS).isDaily ? DAILY : FALLS,
              });
              return { values: energy, quality: marks, duplicateCount };
            }
            if (rolls++ === 0) firstRoll = at;
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
      if (rolls > 0) notes.remark("register", rollWords(rolls, range, lineOf(firstRoll)));
      if (gapCount > 0) notes.remark("register", gapWords(gapCount, gapKwh));
      return { values: energy, quality: marks, duplicateCount };
    }),
  };
}

const FALLS =
  "A register only rises, or rolls over from all nines by no more energy than an interval has. If the meter was exchanged, import the time before and after apart.";
const DAILY =
  "The counter starts anew each day: what it held then cannot be told from its readings. Export the energy of each interval, or the register that never starts anew, and import that.";

const rollWords = (rolls: number, range: number, line: number): string =>
  `The register rolled over at ${range} ${rolls === 1 ? `once, on line ${line}` : `${rolls} times, first on line ${line}`}: counted as energy, because no other interval speaks against it. A meter that was exchanged may look like that.`;

/** Registers print three decimals at most: what their differences have beyond is of the binary fraction. */
const gapWords = (gapCount: number, gapKwh: number): string =>
  `${Number(gapKwh.toFixed(3))} kWh passed in ${gapCount === 1 ? "a gap" : `${gapCount} gaps`} of the readings; when is not known, so it is in no interval.`;

/** The power of ten at which a register that has shown these values starts again. */
function rangeOf(values: Float64Array): number {
  let most = 1;
  for (const value of values) if (value > most) most = value;
  return 10 ** Math.floor(Math.log10(most) + 1);
}

/** Greatest rise from one reading to the next, both present. [kWh] */
function greatestRise(values: Float64Array): number {
  let greatest = 0;
  for (let at = 1; at < values.length; at++) {
    const rise = (values[at] as number) - (values[at - 1] as number);
    if (rise > greatest) greatest = rise;
  }
  return greatest;
}
