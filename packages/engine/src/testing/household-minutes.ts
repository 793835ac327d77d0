import { readFileSync } from "node:fs";
import type { IntervalSeries } from "../demand/index.ts";

/** The measured house of [household-minute]: 17 to 31 December 2006, one-minute means of current, four absent. */
export function householdMinutes(): IntervalSeries {
  const file = new URL("../../../../examples/terraced-house/demand.csv", import.meta.url);
  const start = Date.UTC(2006, 11, 17);
  const currentA = new Float64Array(15 * 1440).fill(Number.NaN);
  for (const row of readFileSync(file, "utf8").trim().split("\n").slice(1)) {
    const [date = "", time = "", , , , current] = row.split(";");
    const [day = 0, month = 0, year = 0] = date.split("/").map(Number);
    const [hour = 0, minute = 0] = time.split(":").map(Number);
    const index = (Date.UTC(year, month - 1, day, hour, minute) - start) / 60_000;
    if (index >= 0) currentA[index] = Number(current);
  }
  return { intervalS: 60, currentA };
}
