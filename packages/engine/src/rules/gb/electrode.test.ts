import { describe, expect, it } from "vitest";
import { blankElectrode } from "../../job/blank.ts";
import { known, NOT_RECORDED, notApplicable } from "../../job/index.ts";
import { type Changes, said } from "../../testing/findings.ts";
import { electrode } from "./electrode.ts";

const electrodeOf = (ohm: number) => ({ ...blankElectrode(), resistanceOhm: known(ohm) });
const separate = {
  "nodes[car].openPen.method": known("separate-electrode"),
  "nodes[car].openPen.electrode": electrodeOf(90),
};

describe(electrode.id, () => {
  it.each<[what: string, changes: Changes, says: string[]]>([
    ["earthed by the supply", {}, ["not-applicable earthedBySupply"]],
    [
      "arrangement unknown",
      { "earthing.arrangement": NOT_RECORDED },
      ["cannot-tell arrangementUnknown earthing.arrangement"],
    ],
    [
      "TT without an electrode",
      { "earthing.arrangement": known("TT") },
      ["cannot-tell noElectrode earthing.electrode.resistanceOhm"],
    ],
    [
      "TT, 200 Ω",
      { "earthing.arrangement": known("TT"), "earthing.electrode": electrodeOf(200) },
      ["pass holds"],
    ],
    [
      "TT, 201 Ω, may be unstable",
      { "earthing.arrangement": known("TT"), "earthing.electrode": electrodeOf(201) },
      ["pass unstable caution"],
    ],
    [
      "TT, 1666 Ω with 30 mA",
      { "earthing.arrangement": known("TT"), "earthing.electrode": electrodeOf(1666) },
      ["pass unstable caution"],
    ],
    [
      "TT, 1667 Ω with 30 mA",
      { "earthing.arrangement": known("TT"), "earthing.electrode": electrodeOf(1667) },
      ["fail tooHigh"],
    ],
    [
      "TT, not measured",
      { "earthing.arrangement": known("TT"), "earthing.electrode": blankElectrode() },
      ["cannot-tell unknown earthing.electrode.resistanceOhm"],
    ],
    [
      "TT, estimated from rods only",
      {
        "earthing.arrangement": known("TT"),
        "earthing.electrode": {
          ...blankElectrode(),
          rods: {
            soilResistivityOhmM: known(50),
            lengthM: known(2.4),
            diameterMm: known(14.2),
            count: known(1),
            spacingM: notApplicable("one rod"),
          },
        },
      },
      ["cannot-tell estimated earthing.electrode.resistanceOhm"],
    ],
    [
      "TT, no residual current device",
      {
        "earthing.arrangement": known("TT"),
        "earthing.electrode": electrodeOf(50),
        "nodes[way].residual": null,
      },
      ["fail noResidual"],
    ],
    [
      "an electrode of its own, nothing within reach",
      { ...separate, "nodes[car].openPen.isNearEarthedMetal": known(false) },
      ["pass holds", "pass outOfReach"],
    ],
    [
      "an electrode of its own, metal within reach",
      { ...separate, "nodes[car].openPen.isNearEarthedMetal": known(true) },
      ["pass holds", "fail nearEarthedMetal"],
    ],
    [
      "an electrode of its own, nobody has looked",
      { ...separate, "nodes[car].openPen.isNearEarthedMetal": NOT_RECORDED },
      ["pass holds", "cannot-tell reachUnknown nodes[car].openPen.isNearEarthedMetal"],
    ],
  ])("%s", (_what, changes, says) => expect(said(electrode.id, changes)).toEqual(says));
});
