import { describe, expect, it } from "vitest";
import { NOT_RECORDED } from "../job/index.ts";
import { optionsOf } from "../rules/index.ts";
import { setAt } from "../testing/set-at.ts";
import { soundJob } from "../testing/sound-job.ts";
import { plannedSite, studied } from "../testing/studied.ts";
import { isKnown } from "../worked/index.ts";
import { designedFallbackA } from "./designed-fallback.ts";

const study = studied(soundJob());
const site = plannedSite(study);
const managed = optionsOf(study).find(({ kind }) => kind === "managed")?.fallback;
const allA = managed !== undefined && managed !== null && isKnown(managed) ? managed.value : Number.NaN;

/** The site with charge points on these lines, and a least offer. */
const eachOf = (
  lines: readonly (readonly (0 | 1 | 2)[])[],
  minOfferA = 6,
  ungoverned: readonly string[] = [],
) =>
  designedFallbackA(study, {
    ...site,
    ungoverned,
    plan: {
      ...site.plan,
      points: lines.map((of, index) => ({ id: `p${index}`, lines: of, ratedA: 32 })),
      control: { ...site.plan.control, minOfferA },
    },
  });

describe("designedFallbackA", () => {
  it("is that of all together for one charge point", () => {
    expect(allA).toBeGreaterThan(12);
    expect(eachOf([[0]])).toBe(allA);
  });
  it("is shared by those on the fullest line, whatever the others hold", () => {
    expect(eachOf([[0], [0, 1, 2], [1]])).toBe(Math.floor(allA / 2));
    expect(eachOf([[0], [1], [2]])).toBe(allA);
  });
  it("counts no charge point that follows no offer", () => expect(eachOf([[0], [0]], 6, ["p1"])).toBe(allA));
  it("is a pause where each would have less than the least offer, and not where it just has it", () => {
    const eachA = Math.floor(allA / 2);
    expect(eachOf([[0], [0]], eachA)).toBe(eachA);
    expect(eachOf([[0], [0]], eachA + 0.01)).toBe(0);
  });
  it("cannot be told while the supply is not known", () => {
    const unknown = setAt(soundJob(), "nodes[cut-out].overcurrent.ratingA", NOT_RECORDED);
    const untold = setAt(unknown, "limiter.limitA", NOT_RECORDED);
    expect(designedFallbackA(studied(untold), site)).toBeNull();
  });
});
