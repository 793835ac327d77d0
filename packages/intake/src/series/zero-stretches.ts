import type { Notes } from "../notes.ts";
import type { Placed } from "./placed.ts";
import { QUESTIONABLE, RECORDED } from "./quality.ts";

/** A stretch of zeros this long is questionable: some standing load is on in almost every building. [s] */
const LONG_S = 3 * 3600;

/** Marks long stretches of exact zeros as questionable; their values stay. */
export function markZeroStretches({ startMs, channels }: Placed, stepS: number, notes: Notes): void {
  for (const { values, quality } of channels) {
    let [stretches, total, longest, longestAt, begun] = [0, 0, 0, 0, -1];
    for (let at = 0; at <= values.length; at++) {
      if (at < values.length && values[at] === 0) {
        if (begun < 0) begun = at;
        continue;
      }
      const length = begun < 0 ? 0 : at - begun;
      if (length * stepS >= LONG_S) {
        stretches++;
        total += length;
        if (length > longest) [longest, longestAt] = [length, begun];
        for (let zero = begun; zero < at; zero++)
          if (quality[zero] === RECORDED) quality[zero] = QUESTIONABLE;
      }
      begun = -1;
    }
    if (stretches > 0)
      notes.remark(
        "zeros",
        `${total} intervals in ${stretches} ${stretches === 1 ? "stretch" : "stretches"} of three hours or more are exactly zero, the longest ${Number(((longest * stepS) / 3600).toFixed(2))} h from ${new Date(startMs + longestAt * stepS * 1000).toISOString()}: kept, and marked questionable. A meter that lost its supply or its data looks like that.`,
      );
  }
}
