import { GREAT_BRITAIN } from "@underfuse/knowledge";
import { describe, expect, it } from "vitest";
import { examinedDesign } from "../testing/examination.ts";
import type { ChainDesign } from "./chain-design.ts";
import type { DesignedPlace, Sight } from "./designed-place.ts";
import { designedFault } from "./designed-prior.ts";
import { weightsOf } from "./diagnose.ts";
import { hypotheses, PRIOR } from "./hypotheses.ts";
import { possibleFaults } from "./possible-faults.ts";

const WEIGHTS = weightsOf(GREAT_BRITAIN.faults);
const place = (index: number, seesChargePoint: Sight, seesBuilding: Sight = "all"): DesignedPlace => ({
  channel: (["L1", "L2", "L3"] as const)[index] as DesignedPlace["channel"],
  transformer: `ct-${index + 1}`,
  isOnNeutral: false,
  seesBuilding,
  seesChargePoint,
  seesGeneration: "all",
  misses: [],
});
const designWith = (...sights: readonly Sight[]): ChainDesign => ({
  ...examinedDesign(3),
  places: sights.map((sight, index) => place(index, sight)),
});
const found = (design: ChainDesign) => designedFault(possibleFaults(design, WEIGHTS), design.places)?.fault;

describe("designedFault", () => {
  it("names what the design misses, where one fault says it", () => {
    expect(found(designWith("all", "none", "all"))).toEqual({ id: "F18", channels: [2] });
    expect(found(designWith("none", "none", "none"))).toEqual({ id: "F18", channels: [1, 2, 3] });
    const beside = {
      ...examinedDesign(3),
      places: [place(0, "all", "none"), place(1, "all"), place(2, "all")],
    };
    expect(found(beside)).toEqual({ id: "F19", channels: [1] });
  });
  it("is nothing where the design sees all, only a part is missed, or no one fault says it", () => {
    expect(found(designWith("all", "all", "all"))).toBeUndefined();
    expect(found(designWith("all", "part", "all"))).toBeUndefined();
    expect(found(designWith("none", "none", "all"))).toBeUndefined();
  });
});

describe("belief before any reading", () => {
  const design = designWith("all", "none", "all");
  const usual = hypotheses(examinedDesign(3), WEIGHTS);
  const expected = hypotheses(design, WEIGHTS);
  const named = (all: typeof usual, ...ids: readonly string[]) =>
    all.find(
      ({ faults }) =>
        faults
          .map(({ fault }) => nameOf(fault))
          .sort()
          .join() === [...ids].sort().join(),
    )?.logPrior ?? Number.NaN;
  const nameOf = (fault: { readonly id: string }): string =>
    "channels" in fault ? `${fault.id}:${(fault.channels as readonly number[]).join("")}` : fault.id;

  it("takes the chain as designed for the sound one, and one that sees all as one change away", () => {
    expect(named(expected, "F18:2")).toBeCloseTo(Math.log(PRIOR.sound), 12);
    expect(named(expected)).toBeCloseTo(named(usual, "F18:2"), 12);
  });
  it("adds a further fault to the design as one fault, not as two", () => {
    expect(named(expected, "F18:2", "F01:1")).toBeCloseTo(named(usual, "F01:1"), 12);
    expect(named(expected, "F01:1")).toBeCloseTo(named(usual, "F18:2", "F01:1"), 12);
    expect(named(expected, "F01:1", "F03")).toBeLessThan(named(usual, "F01:1", "F03") - 3);
  });
});
