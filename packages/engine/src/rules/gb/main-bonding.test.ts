import { describe, expect, it } from "vitest";
import { known, NOT_RECORDED, notApplicable } from "../../job/index.ts";
import { type Changes, said } from "../../testing/findings.ts";
import { mainBonding } from "./main-bonding.ts";

describe(mainBonding.id, () => {
  it.each<[what: string, changes: Changes, says: string[]]>([
    ["10 mm² with a supply neutral of 35 mm²", { "earthing.supplyNeutralMm2": known(35) }, ["pass enough"]],
    ["10 mm² with a larger supply neutral", { "earthing.supplyNeutralMm2": known(50) }, ["fail tooSmall"]],
    ["6 mm² on TN-C-S", { "earthing.bonding[0].mm2": known(6) }, ["fail tooSmall"]],
    [
      "8 mm² of earthing conductor 16 mm² on TN-S",
      { "earthing.arrangement": known("TN-S"), "earthing.bonding[0].mm2": known(8) },
      ["pass enough"],
    ],
    [
      "less on TN-S",
      { "earthing.arrangement": known("TN-S"), "earthing.bonding[0].mm2": known(6) },
      ["fail tooSmall"],
    ],
    [
      "plastic pipe",
      { "earthing.bonding[0].mm2": notApplicable("plastic pipe") },
      ["not-applicable plastic"],
    ],
    [
      "conductor unknown",
      { "earthing.bonding[0].mm2": NOT_RECORDED },
      ["cannot-tell unknown earthing.bonding[0].mm2"],
    ],
    [
      "supply neutral unknown",
      { "earthing.supplyNeutralMm2": NOT_RECORDED },
      ["cannot-tell unknown earthing.supplyNeutralMm2"],
    ],
    [
      "arrangement unknown",
      { "earthing.arrangement": NOT_RECORDED },
      ["cannot-tell arrangementUnknown earthing.arrangement"],
    ],
    ["nothing listed", { "earthing.bonding": [] }, ["cannot-tell noneListed earthing.bonding"]],
  ])("%s", (_what, changes, says) => expect(said(mainBonding.id, changes)).toEqual(says));
});
