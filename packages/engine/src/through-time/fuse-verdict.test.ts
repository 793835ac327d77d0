import { describe, expect, it } from "vitest";
import type { LineOutcome } from "../simulation/index.ts";
import { smallSite } from "../testing/small-site.ts";
import { fuseVerdict, toneOfFuse } from "./fuse-verdict.ts";

const main = { band: smallSite.fuse?.band ?? null, ratingA: 60 };
const never = { fast: 0, slow: 0, minute: null };
const line = (change: Partial<LineOutcome>, longestS = 0): LineOutcome => ({
  over: { count: 1, totalS: longestS, longestS, aloneS: 0, carS: 0 },
  mostA: 0,
  mostOutA: 0,
  fuse: never,
  ...change,
});

describe("fuseVerdict", () => {
  it.each([
    ["nothing above the rating, either way", line({ mostA: 60, mostOutA: 60 }), "within-rating", "pass"],
    ["above the rating, under the curve", line({ mostA: 61 }), "below-curve", "pass"],
    [
      "the same for longer than its first gate of an hour",
      line({ mostA: 61 }, 3601),
      "longer-than-curve",
      "unknown",
    ],
    ["sent out above the rating", line({ mostOutA: 61 }), "sent-out-above-rating", "unknown"],
    [
      "sent out until it operates",
      line({ mostOutA: 90, fuse: { fast: 1, slow: 0.4, minute: 3 } }),
      "may-operate",
      "fail",
    ],
    ["on its slow edge", line({ mostA: 90, fuse: { fast: 9, slow: 1, minute: 3 } }), "would-operate", "fail"],
    ["under half its life", line({ mostA: 90, fuse: { fast: 0.49, slow: 0, minute: 3 } }), "used", "pass"],
    ["at half its life", line({ mostA: 90, fuse: { fast: 0.5, slow: 0, minute: 3 } }), "used", "unknown"],
    ["without a curve", line({ fuse: null }), "no-band", "unknown"],
  ] as const)("%s", (_what, of, kind, tone) => {
    const verdict = fuseVerdict(of, main);
    expect([verdict.kind, toneOfFuse(verdict)]).toEqual([kind, tone]);
  });
  it("never says within a rating that is not known", () =>
    expect(fuseVerdict(line({ mostA: 1 }), { ...main, ratingA: null }).kind).toBe("below-curve"));
});
