import { describe, expect, it } from "vitest";
import { known, NOT_RECORDED } from "../job/index.ts";
import { example } from "../testing/examples.ts";
import { changed } from "../testing/findings.ts";
import { opened } from "../testing/sketch.ts";
import { isolationOf } from "./isolation.ts";
import { taps } from "./taps.ts";
import { isReady } from "./work-step.ts";

/** In the sound job the transformer is on the tails, upstream of every switch. */
function tapsOf(changes: Record<string, unknown> = {}) {
  const open = opened(changed(changes));
  return taps(open, isolationOf(open));
}
const WITHDRAWAL = "work.needsFuseWithdrawal";
const PERMISSION = "supply.operator.allowsFuseWithdrawal";
const BELOW = { "metering.currentTransformers[ct1].cable": "way-to-car" };

describe(taps, () => {
  it("upstream of every switch, says that a tap there is dead only with the main fuse drawn", () => {
    const step = tapsOf();
    expect(step.does[0]).toMatch(
      /^Take them from .+ or below it.* Beside ct1 .* only while the main fuse is drawn\.$/,
    );
    expect(step.hold).toContain("live until the main fuse is drawn by its owner, the network operator");
    expect(step.hold).not.toBe("Dead and locked off.");
  });
  it("below a switch, is dead and locked off, and asks for nothing of the operator", () => {
    const { job, tree } = example("village-hall");
    const isolation = isolationOf({ job, tree });
    const step = taps({ job, tree }, { ...isolation, uncovered: [] });
    expect(step.hold).toBe("Dead and locked off.");
    expect(step.needs.map(({ state }) => state)).toEqual(["on-site"]);
    expect(step.does.join(" ")).not.toContain("main fuse");
  });
  it.each([
    ["nobody knows", { [WITHDRAWAL]: NOT_RECORDED }, "unknown", WITHDRAWAL],
    ["drawn, no answer", { [WITHDRAWAL]: known(true), [PERMISSION]: NOT_RECORDED }, "unknown", PERMISSION],
    ["drawn, refused", { [WITHDRAWAL]: known(true), [PERMISSION]: known(false) }, "broken", PERMISSION],
    ["drawn, permitted", { [WITHDRAWAL]: known(true), [PERMISSION]: known(true) }, "met", PERMISSION],
    ["not drawn", { [WITHDRAWAL]: known(false) }, "met", null],
  ])("fuse %s", (_what, changes, state, path) => {
    const step = tapsOf(changes);
    expect(step.needs[1]).toMatchObject({ state, path });
    expect(isReady(step)).toBe(state === "met");
  });
  it("follows the tree: moved below the switch, the transformer's place can be dead", () => {
    const open = opened(changed(BELOW));
    expect(isolationOf(open).uncovered).toEqual([]);
    expect(taps(open, isolationOf(open)).hold).toBe("Dead and locked off.");
  });
  it("with no switch at all, only the main fuse makes it dead", () => {
    const open = opened(changed({}));
    const step = taps(open, { ...isolationOf(open), name: null });
    expect(step.does[0]).toContain("No switch makes any part of the way dead");
    expect(step.needs[1]?.path).toBe(PERMISSION);
  });
});
