import type { Running } from "@underfuse/engine";
import { progress } from "./progress.ts";
import { listenForStop } from "./stop-listener.ts";
import type { Surroundings } from "./surroundings.ts";

/** Longest time in which nobody can stop a run. [ms] */
const TURN_MS = 50;

/** Drives a run to its end, showing how far it is; a person who asks to stop gets the days that are finished. */
export async function runDays<Result>(
  what: string,
  days: number,
  running: Running<Result>,
  world: Surroundings,
): Promise<Result> {
  const stop = listenForStop(world);
  const shown = progress(what, world);
  try {
    let turnMs = world.nowMs();
    for (;;) {
      const step = running.next(!stop.isAsked());
      if (step.done) return step.value;
      if (world.nowMs() - turnMs < TURN_MS) continue;
      shown.update(step.value / days);
      await new Promise(setImmediate);
      turnMs = world.nowMs();
    }
  } finally {
    stop.end();
    shown.clear();
  }
}
