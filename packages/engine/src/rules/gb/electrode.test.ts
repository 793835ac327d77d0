import { describe, expect, it } from "vitest";
import { blankElectrode, blankNode } from "../../job/blank.ts";
import { known, NOT_RECORDED, notApplicable } from "../../job/index.ts";
import { type Changes, said } from "../../testing/findings.ts";
import { describedRun } from "../../testing/run.ts";
import { soundJob } from "../../testing/sound-job.ts";
import { electrode } from "./electrode.ts";

const electrodeOf = (ohm: number) => ({ ...blankElectrode(), resistanceOhm: known(ohm) });
const residualOf = (mA: number) => ({
  type: known("A" as const),
  ratedResidualMa: known(mA),
  isTimeDelayed: known(false),
  opensAllLiveConductors: known(true),
});
const tt = { "earthing.arrangement": known("TT"), "earthing.electrode": electrodeOf(90) };
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
      "TT, the only residual current device is inside the charge point: its cable is unguarded",
      { ...tt, "nodes[way].residual": null, "nodes[car].residualInside": residualOf(30) },
      ["fail noResidual"],
    ],
    [
      "TT, a device for the whole board guards the cable",
      {
        ...tt,
        "nodes[way].residual": null,
        "nodes[car].residualInside": residualOf(30),
        "nodes[board].residual": residualOf(100),
      },
      ["pass holds"],
    ],
    [
      "TT, that device is too coarse for 501 Ω",
      {
        ...tt,
        "earthing.electrode": electrodeOf(501),
        "nodes[way].residual": null,
        "nodes[car].residualInside": residualOf(30),
        "nodes[board].residual": residualOf(100),
      },
      ["fail tooHigh"],
    ],
    [
      "TT, of two at the start the more sensitive counts",
      { ...tt, "earthing.electrode": electrodeOf(501), "nodes[board].residual": residualOf(100) },
      ["pass unstable caution"],
    ],
    [
      "TT, nobody has read one of two at the start",
      {
        ...tt,
        "nodes[board].residual": { ...residualOf(100), ratedResidualMa: NOT_RECORDED },
      },
      ["cannot-tell unknown nodes[board].residual.ratedResidualMa"],
    ],
    [
      "an electrode of its own, the only device inside the charge point",
      {
        ...separate,
        "nodes[way].residual": null,
        "nodes[car].residualInside": residualOf(30),
        "nodes[car].openPen.isNearEarthedMetal": known(false),
      },
      ["fail noResidual", "pass outOfReach"],
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

  it("TT, a feeder to a second board wants a device at its own start", () => {
    const job = soundJob();
    const feeder = blankNode("way", { id: "feeder", label: "Feeder", residual: null });
    const shed = blankNode("board", { id: "shed", label: "Shed", residual: null });
    const cables = job.cables.flatMap((cable) =>
      cable.to === "way"
        ? [
            { ...cable, id: "to-feeder", to: "feeder" },
            { ...cable, id: "to-shed", from: "feeder", to: "shed", run: describedRun() },
            { ...cable, from: "shed" },
          ]
        : [cable],
    );
    const fed = { ...job, nodes: [...job.nodes, feeder, shed], cables };
    expect(said(electrode.id, tt, {}, fed)).toEqual(["fail noResidual"]);
    const guarded = { ...tt, "nodes[feeder].residual": residualOf(300) };
    expect(said(electrode.id, guarded, {}, fed)).toEqual(["pass holds"]);
    expect(said(electrode.id, { ...guarded, "earthing.electrode": electrodeOf(170) }, {}, fed)).toEqual([
      "fail tooHigh",
    ]);
  });
});
