import type { Notes } from "../notes.ts";
import type { ZoneOffsets } from "../time/zone.ts";
import type { Placed } from "./placed.ts";
import { LEFT_OUT } from "./quality.ts";

/**
 * An hour that the clock repeats, of which the file has only one: two hours' energy, one of the two, or their
 * mean, nobody can say which. It is left out.
 */
export function leaveRepeatedHours(
  grid: {
    readonly firstMs: number;
    readonly stepMs: number;
    readonly channels: Placed["channels"];
  },
  offsets: ZoneOffsets,
  notes: Notes,
): void {
  const { firstMs, stepMs, channels } = grid;
  for (const { atMs, beforeS, afterS } of offsets.changes) {
    if (afterS > beforeS) continue;
    const steps = ((beforeS - afterS) * 1000) / stepMs;
    const change = Math.round((atMs - firstMs) / stepMs);
    for (const { values, quality } of channels) {
      let [sum, count] = [0, 0];
      for (let index = change - steps; index < change; index++) {
        const pair = [index, index + steps].filter((slot) => !Number.isNaN(values[slot] ?? Number.NaN));
        if (pair.length !== 1) continue;
        const slot = pair[0] as number;
        sum += values[slot] as number;
        count++;
        values[slot] = Number.NaN;
        quality[slot] = LEFT_OUT;
      }
      if (count === 0) continue;
      const around = [...values.slice(Math.max(0, change - 2 * steps), change + 2 * steps)].filter(
        (value) => !Number.isNaN(value),
      );
      const usual = around.reduce((total, value) => total + value, 0) / around.length;
      const times =
        usual > 0 ? ` They stand at ${(sum / count / usual).toFixed(1)} times the hours beside them.` : "";
      notes.remark(
        "clock-repeat",
        `${count} ${count === 1 ? "reading" : "readings"} of the hour that clocks repeated at ${new Date(atMs).toISOString()} stand once: they may hold both hours, one, or their mean, and are left out.${times}`,
      );
    }
  }
}
