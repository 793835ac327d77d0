import { describe, expect, it } from "vitest";
import { known } from "../job/index.ts";
import { circuits, figures } from "../testing/knowledge.ts";
import { knownValue, plain } from "../testing/plain.ts";
import { cableWith } from "../testing/run.ts";
import { cableLoops, earthFaultCurrent, earthFaultLoop, earthLoop, prospectiveAt } from "./loop.ts";

const ze = plain("Ze", 0.35, "Ω");
const u0 = plain("U0", 230, "V");

const loops = cableLoops(circuits, figures);

describe("earthFaultLoop", () => {
  it("Ze 0.35 Ω and 25 m of 6/2.5 mm²: 0.6638 Ω hot, 0.6123 Ω at 20 °C", () => {
    const path = [cableWith()];
    expect(knownValue(earthFaultLoop(ze, path, "hot", loops))).toBeCloseTo(0.66378, 5);
    expect(knownValue(earthFaultLoop(ze, path, "cold", loops))).toBeCloseTo(0.61225, 5);
  });
  it("adds every cable of the path; a busbar adds nothing", () => {
    const busbar = { ...cableWith(), run: "busbar" as const };
    const once = knownValue(earthFaultLoop(ze, [cableWith()], "hot", loops));
    const twice = knownValue(earthFaultLoop(ze, [cableWith(), busbar, cableWith()], "hot", loops));
    expect(twice - 0.35).toBeCloseTo(2 * (once - 0.35), 12);
  });
  it("without a protective conductor there is no loop to work out", () => {
    const bare = cableWith({ protective: { form: known("none"), mm2: known(1) } });
    expect(earthFaultLoop(ze, [bare], "hot", loops)).toMatchObject({
      kind: "unknown",
      missing: [{ path: "cables[to-end].run.protective.form" }],
    });
  });
  it("through the armour it takes the armour's resistance, 2 cores on one line, 4 on three", () => {
    const armoured = {
      construction: known("armoured" as const),
      protective: { form: known("armour" as const), mm2: known(23) },
      lengthM: known(1000),
    };
    const loopOf = (lines: readonly ("L1" | "L2" | "L3")[]) =>
      earthLoop(cableWith(armoured, lines), "cold", circuits, figures);
    expect(loopOf(["L1"])).toMatchObject({ value: 3.08 + 7.0 });
    expect(loopOf(["L1", "L2", "L3"])).toMatchObject({ value: 3.08 + 4.3 });
  });
});

describe("earthFaultCurrent", () => {
  it("is Cmin · U0 / Zs: 329.2 A at 0.66378 Ω", () => {
    expect(knownValue(earthFaultCurrent(plain("Zs", 0.66378), u0, figures))).toBeCloseTo(
      (0.95 * 230) / 0.66378,
      9,
    );
  });
});

describe("cableLoops", () => {
  it("works a cable out once, also one that adds nothing", () => {
    const [cable, busbar] = [cableWith(), { ...cableWith(), run: "busbar" as const }];
    const kept = cableLoops(circuits, figures);
    expect(kept.earth(cable, "hot")).toBe(kept.earth(cable, "hot"));
    expect(kept.neutral(cable)).toBe(kept.neutral(cable));
    expect(kept.earth(cable, "cold")).not.toBe(kept.earth(cable, "hot"));
    expect(kept.line(busbar)).toBeNull();
  });
});

describe("prospectiveAt", () => {
  const at = (originKa: number, path: Parameters<typeof prospectiveAt>[2]) =>
    knownValue(prospectiveAt(plain("I0", originKa, "kA"), u0, path, loops, figures));
  it("at the origin it is the origin's", () => expect(at(16, [])).toBeCloseTo(16, 12));
  it("falls along a cable, to the least the impedances can add up to", () => {
    const z0 = (1.1 * 230) / 16_000;
    const r = (2 * 3.08 * 25) / 1000;
    expect(at(16, [cableWith()])).toBeCloseTo((1.1 * 230) / 1000 / Math.hypot(z0, r), 12);
  });
  it("is never less than with the impedances added as they stand", () => {
    for (const originKa of [0.5, 1, 3, 16]) {
      const added = (1.1 * 230) / 1000 / ((1.1 * 230) / (originKa * 1000) + (2 * 3.08 * 25) / 1000);
      expect(at(originKa, [cableWith()])).toBeGreaterThan(added);
    }
  });
  it("between three lines only the line conductor counts", () => {
    const z0 = (1.1 * 230) / 6000;
    expect(at(6, [cableWith({}, ["L1", "L2", "L3"])])).toBeCloseTo(0.253 / Math.hypot(z0, 0.077), 12);
  });
});
