import type { ControlSettings } from "../limiter/index.ts";

/** A manager with no delays to speak of and no patience, for tests that change one thing. */
export const promptControl: ControlSettings = {
  limitA: 60,
  marginA: 0,
  law: { kind: "direct" },
  averageS: 0,
  readEveryS: 1,
  decideEveryS: 0,
  commandS: 1,
  minOfferA: 6,
  offerStepA: 1,
  riseHoldS: 0,
  riseStepA: Number.POSITIVE_INFINITY,
  resumeExtraA: 0,
  resumeHoldS: 0,
  minimumOffS: 0,
  fallbackA: 6,
  fallbackAfterS: 60,
  sharing: "equal",
  turnS: 900,
};
