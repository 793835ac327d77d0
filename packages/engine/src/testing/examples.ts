import { readFileSync } from "node:fs";
import { GREAT_BRITAIN } from "@underfuse/knowledge";
import type { IntervalSeries } from "../demand/index.ts";
import { type Assessment, assess } from "../rules/index.ts";
import { type OpenJob, openJob } from "../supply/index.ts";

/** The jobs in examples/. */
export const EXAMPLES = ["terraced-house", "village-hall", "farmhouse"] as const;
export type ExampleName = (typeof EXAMPLES)[number];

const read = (path: string): string =>
  readFileSync(new URL(`../../../../examples/${path}`, import.meta.url), "utf8");

export function example(name: ExampleName): OpenJob {
  const open = openJob(read(`${name}/job.json`));
  if (!open.ok) throw new Error(JSON.stringify(open.problems, null, 2));
  return open;
}

/** An example assessed on a fixed day, its recording read by a few lines of its own. */
export function assessedExample(name: ExampleName): Assessment {
  return assess(example(name), GREAT_BRITAIN, { onIso: "2026-11-25", series: seriesOf(name) });
}

function seriesOf(name: ExampleName): ReadonlyMap<string, IntervalSeries> {
  if (name !== "terraced-house") return new Map();
  const start = Date.UTC(2006, 11, 17);
  const currentA = new Float64Array(15 * 1440).fill(Number.NaN);
  for (const row of read("terraced-house/demand.csv").trim().split("\n").slice(1)) {
    const [date = "", time = "", , , , current] = row.split(";");
    const [day = 0, month = 0, year = 0] = date.split("/").map(Number);
    const [hour = 0, minute = 0] = time.split(":").map(Number);
    const index = (Date.UTC(year, month - 1, day, hour, minute) - start) / 60_000;
    if (index >= 0) currentA[index] = Number(current);
  }
  return new Map([["tails-logger", { intervalS: 60, currentA }]]);
}
