import type { Surroundings } from "./surroundings.ts";

/** Whether a person has asked to stop since; `end` when nobody need listen any more. */
export interface StopListener {
  readonly isAsked: () => boolean;
  readonly end: () => void;
}

export function listenForStop(world: Surroundings): StopListener {
  let isAsked = false;
  const end = world.onStop(() => {
    isAsked = true;
  });
  return { isAsked: () => isAsked, end };
}
