import type { Loss } from "./trace.ts";

/** Proved, failed or not to be told; or nothing to prove on this line. */
export type TraceVerdict = "proved" | "failed" | "cannot-tell" | "not-applicable";

/** What is claimed of a load manager on one line. */
export type ClaimId = "trace" | "reaction" | "main-fuse" | Loss;

/** Every reason a claim can have; its sentence is in `present`. */
export const CLAIM_REASONS = [
  "lineNotRecorded",
  "limitNotKnown",
  "limitNotSet",
  "figuresNotKnown",
  "unseen",
  "neverOver",
  "quick",
  "withinLongest",
  "slow",
  "tooSlow",
  "tooSlowWithoutCar",
  "hunts",
  "tooCoarse",
  "beganBefore",
  "unfinished",
  "noCarHere",
  "notTried",
  "fallbackNotSet",
  "noTimeOut",
  "carNotRecorded",
  "notDrawing",
  "fallbackHeld",
  "fallbackLate",
  "fallbackNever",
  "fallbackRose",
  "fallbackTooCoarse",
  "watchedTooShort",
  "withinRating",
  "awayFromEdge",
  "edgeReached",
  "edgePerhaps",
  "fedBack",
  "noBand",
  "fuseNotKnown",
] as const;
export type ClaimReason = (typeof CLAIM_REASONS)[number];

/** One claim of one line, and why it stands as it does. Data only; the ending of a name is its unit. */
export interface Claim {
  readonly claim: ClaimId;
  readonly verdict: TraceVerdict;
  readonly reason: ClaimReason;
  readonly data: Readonly<Record<string, number>>;
}

/** The worst of several verdicts: one failure fails, then one doubt leaves all in doubt. */
export function worstVerdict(verdicts: readonly TraceVerdict[]): TraceVerdict {
  const order = ["failed", "cannot-tell", "proved"] as const;
  return order.find((verdict) => verdicts.includes(verdict)) ?? "not-applicable";
}
