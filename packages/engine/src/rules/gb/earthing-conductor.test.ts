import { describe, expect, it } from "vitest";
import { known, NOT_RECORDED } from "../../job/index.ts";
import { type Changes, said } from "../../testing/findings.ts";
import { earthingConductor } from "./earthing-conductor.ts";

describe(earthingConductor.id, () => {
  it.each<[what: string, changes: Changes, says: string[]]>([
    ["16 mm² beside 25 mm² tails", {}, ["pass enough"]],
    ["10 mm² beside 25 mm² tails", { "earthing.earthingConductorMm2": known(10) }, ["fail tooSmall"]],
    [
      "the operator asks for more",
      { "supply.operator.earthingConductorMinMm2": known(25) },
      ["fail tooSmall"],
    ],
    [
      "unknown",
      { "earthing.earthingConductorMm2": NOT_RECORDED },
      ["cannot-tell unknown earthing.earthingConductorMm2"],
    ],
    [
      "tails not described",
      { "cables[cut-out-to-meter].run": "not-surveyed" },
      ["cannot-tell noTails cables[cut-out-to-meter].run"],
    ],
  ])("%s", (_what, changes, says) => expect(said(earthingConductor.id, changes)).toEqual(says));
});
