import type { Gate, TimeCurrentBand } from "../protection/index.ts";
import { type LineOutcome, MOST_FUSE_LIFE } from "../simulation/index.ts";

/** The main fuse of a line. */
export interface MainFuse {
  /** Null where no curve is held for it. */
  readonly band: TimeCurrentBand | null;
  /** Null while it is not known. [A] */
  readonly ratingA: number | null;
}

/** How near the main fuse of a line came, whichever way the current went. */
export type FuseVerdict =
  | { readonly kind: "no-band" }
  /** Never above its rating. */
  | { readonly kind: "within-rating" }
  | { readonly kind: "would-operate" | "may-operate" }
  /** Above its rating for longer than its curve says anything about, or while current was sent out. */
  | { readonly kind: "longer-than-curve"; readonly gate: Gate }
  | { readonly kind: "sent-out-above-rating" }
  /** Above its rating, but never at the first gate of its curve. */
  | { readonly kind: "below-curve"; readonly gate: Gate }
  /** Most of its life in use at once. */
  | { readonly kind: "used"; readonly share: number };

/**
 * The first gate of a curve says what the fuse carries for an hour or two, not for good: time over the limit that is
 * longer than that leaves it open.
 */
export function fuseVerdict(
  { fuse, over, mostA, mostOutA }: LineOutcome,
  { band, ratingA }: MainFuse,
): FuseVerdict {
  if (fuse === null || band === null) return { kind: "no-band" };
  const gate = band.fast[0] as Gate;
  if (ratingA !== null && Math.max(mostA, mostOutA) <= ratingA) return { kind: "within-rating" };
  if (fuse.slow >= 1) return { kind: "would-operate" };
  if (fuse.fast >= 1) return { kind: "may-operate" };
  if (over.longestS > gate[1]) return { kind: "longer-than-curve", gate };
  // How long it was sent out at a time is not counted.
  if (ratingA !== null && mostOutA > ratingA) return { kind: "sent-out-above-rating" };
  if (fuse.minute === null) return { kind: "below-curve", gate };
  return { kind: "used", share: fuse.fast };
}

/** What a verdict decides. */
export function toneOfFuse(verdict: FuseVerdict): "pass" | "fail" | "unknown" {
  switch (verdict.kind) {
    case "within-rating":
    case "below-curve":
      return "pass";
    case "used":
      return verdict.share >= MOST_FUSE_LIFE ? "unknown" : "pass";
    case "would-operate":
    case "may-operate":
      return "fail";
    default:
      return "unknown";
  }
}
