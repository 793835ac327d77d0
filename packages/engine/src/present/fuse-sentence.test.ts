import { describe, expect, it } from "vitest";
import type { LineOutcome } from "../simulation/index.ts";
import { smallSite } from "../testing/small-site.ts";
import { fuseSentence } from "./fuse-sentence.ts";

const main = { band: smallSite.fuse?.band ?? null, ratingA: 60 };
const line = (longestS: number, mostA: number, fuse: LineOutcome["fuse"]): LineOutcome => ({
  over: { count: longestS > 0 ? 1 : 0, totalS: longestS, longestS, aloneS: 0, carS: longestS },
  mostA,
  mostOutA: 0,
  fuse,
});
const never = { fast: 0, slow: 0, minute: null };

describe("fuseSentence", () => {
  it.each([
    ["never over its rating", line(9000, 60, never), "pass", "never carried more than its rating"],
    ["under its first gate for its hour", line(3600, 74, never), "pass", "from which it may operate within"],
    ["for longer than its hour, whatever the current", line(3601, 74, never), "unknown", "cannot be told"],
    ["far from the fast edge", line(60, 90, { fast: 0.2, slow: 0, minute: 1441 }), "pass", "at most 20"],
    ["at half of its life", line(60, 90, { fast: 0.5, slow: 0, minute: 1 }), "unknown", "50"],
    ["on the fast edge", line(60, 90, { fast: 1, slow: 0.1, minute: 1 }), "fail", "may have operated"],
    ["on the slow edge", line(4000, 90, { fast: 9, slow: 1, minute: 1 }), "fail", "would have operated"],
    ["without a curve", line(0, 50, null), "unknown", "no time-current band is held"],
  ] as const)("%s", (_what, of, tone, words) =>
    expect(fuseSentence("L1", of, main)).toEqual({ tone, text: expect.stringContaining(words) }),
  );
  it("says when", () =>
    expect(fuseSentence("L1", line(60, 90, { fast: 0.2, slow: 0, minute: 1441 }), main).text).toContain(
      "day 2 at 00:01",
    ));
});
