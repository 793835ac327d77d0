import { describe, expect, it } from "vitest";
import { blankElectrode } from "../../job/blank.ts";
import { known, NOT_RECORDED } from "../../job/index.ts";
import { example } from "../../testing/examples.ts";
import { type Changes, said } from "../../testing/findings.ts";
import { brokenNeutralProtection } from "./broken-neutral-protection.ts";

describe(brokenNeutralProtection.id, () => {
  it.each<[what: string, changes: Changes, says: string[]]>([
    ["a device with a true earth reference", {}, ["pass earthReference"]],
    ["without one", { "nodes[car].openPen.hasEarthReference": known(false) }, ["fail noEarthReference"]],
    [
      "not known",
      { "nodes[car].openPen.hasEarthReference": NOT_RECORDED },
      ["cannot-tell deviceUnknown nodes[car].openPen.hasEarthReference"],
    ],
    [
      "a voltage window on one phase",
      { "nodes[car].openPen.method": known("device-with-voltage-window") },
      ["pass voltageWindow"],
    ],
    ...(["device-with-earth-reference", "device-with-voltage-window"] as const).flatMap(
      (method): [what: string, changes: Changes, says: string[]][] => {
        const car = (field: string) => `nodes[car].openPen.${field}`;
        const passes = method === "device-with-voltage-window" ? "voltageWindow" : "earthReference";
        const withDevice = (changes: Changes) => ({ [car("method")]: known(method), ...changes });
        return [
          [
            `${method} that closes onto the fault`,
            withDevice({ [car("recloses")]: known(true) }),
            ["fail recloses"],
          ],
          [
            `${method}, whether it closes is not known`,
            withDevice({ [car("recloses")]: NOT_RECORDED }),
            [`cannot-tell deviceUnknown ${car("recloses")}`],
          ],
          [
            `${method}, where it is is not known`,
            withDevice({ [car("isInsideChargePoint")]: NOT_RECORDED }),
            [`cannot-tell deviceUnknown ${car("isInsideChargePoint")}`],
          ],
          [
            `${method} that stands apart`,
            withDevice({ [car("isInsideChargePoint")]: known(false) }),
            ["pass deviceDoubted caution"],
          ],
          [
            `${method} that stands apart, with the maker's word`,
            withDevice({
              [car("isInsideChargePoint")]: known(false),
              [car("hasMakersStatement")]: known(true),
            }),
            [`pass ${passes}`],
          ],
          [
            `${method} whose maker states nothing`,
            withDevice({ [car("hasMakersStatement")]: known(false) }),
            ["pass deviceDoubted caution"],
          ],
        ];
      },
    ),
    ["none", { "nodes[car].openPen.method": known("none") }, ["fail none"]],
    [
      "undecided",
      { "nodes[car].openPen.method": NOT_RECORDED },
      ["cannot-tell methodUnknown nodes[car].openPen.method"],
    ],
    [
      "balance is not offered",
      { "nodes[car].openPen.method": known("three-phase-balance") },
      ["cannot-tell balanceWithdrawn refer decision: whether balanced three-phase load may be relied on"],
    ],
    [
      "an isolating transformer is for a designer",
      { "nodes[car].openPen.method": known("isolating-transformer") },
      ["cannot-tell isolatingTransformer refer decision: electrical separation of the charge point"],
    ],
    [
      "an electrode of its own is judged elsewhere",
      { "nodes[car].openPen.method": known("separate-electrode") },
      ["pass separateElectrode"],
    ],
    [
      "another device with the maker's word",
      {
        "nodes[car].openPen.method": known("other-device"),
        "nodes[car].openPen.hasMakersStatement": known(true),
      },
      ["pass otherDevice"],
    ],
    [
      "another device that closes again",
      {
        "nodes[car].openPen.method": known("other-device"),
        "nodes[car].openPen.hasMakersStatement": known(true),
        "nodes[car].openPen.recloses": known(true),
      },
      ["fail otherDeviceUnproved"],
    ],
    [
      "another device without the maker's word",
      {
        "nodes[car].openPen.method": known("other-device"),
        "nodes[car].openPen.hasMakersStatement": known(false),
      },
      ["fail otherDeviceUnproved"],
    ],
    [
      "another device nobody has read about",
      {
        "nodes[car].openPen.method": known("other-device"),
        "nodes[car].openPen.hasMakersStatement": NOT_RECORDED,
      },
      ["cannot-tell deviceUnknown nodes[car].openPen.hasMakersStatement"],
    ],
    [
      "a low electrode, none described",
      { "nodes[car].openPen.method": known("low-resistance-electrode") },
      ["cannot-tell noElectrode nodes[car].openPen.electrode"],
    ],
    [
      "57 A through 1.765 Ω is just under 70 V",
      {
        "nodes[car].openPen.method": known("low-resistance-electrode"),
        "nodes[car].openPen.electrode": { ...blankElectrode(), resistanceOhm: known(1.765) },
      },
      ["pass electrodeHolds"],
    ],
    [
      "57 A through 1.766 Ω is not",
      {
        "nodes[car].openPen.method": known("low-resistance-electrode"),
        "nodes[car].openPen.electrode": { ...blankElectrode(), resistanceOhm: known(1.766) },
      },
      ["fail electrodeTooHigh"],
    ],
    [
      "71 A fed back through 1 Ω with nothing drawn is 71 V",
      {
        "nodes[car].openPen.method": known("low-resistance-electrode"),
        "nodes[car].openPen.electrode": { ...blankElectrode(), resistanceOhm: known(1) },
        "nodes[car].exportA": known(71),
      },
      ["fail electrodeTooHigh"],
    ],
    [
      "an electrode only estimated from its rods",
      {
        "nodes[car].openPen.method": known("low-resistance-electrode"),
        "nodes[car].openPen.electrode": {
          ...blankElectrode(),
          rods: {
            soilResistivityOhmM: known(10),
            lengthM: known(10),
            diameterMm: known(15),
            count: known(10),
            spacingM: known(10),
          },
        },
      },
      ["cannot-tell electrodeEstimated nodes[car].openPen.electrode.resistanceOhm"],
    ],
    [
      "an electrode not measured",
      {
        "nodes[car].openPen.method": known("low-resistance-electrode"),
        "nodes[car].openPen.electrode": blankElectrode(),
      },
      ["cannot-tell electrodeUnknown nodes[car].openPen.electrode.resistanceOhm"],
    ],
    ["indoors", { "nodes[car].isOutdoors": known(false) }, ["not-applicable indoors"]],
    [
      "place unknown",
      { "nodes[car].isOutdoors": NOT_RECORDED },
      ["cannot-tell placeUnknown nodes[car].isOutdoors"],
    ],
    ["TN-S", { "earthing.arrangement": known("TN-S") }, ["not-applicable notTncs"]],
    [
      "arrangement unknown",
      { "earthing.arrangement": NOT_RECORDED },
      ["cannot-tell arrangementUnknown earthing.arrangement"],
    ],
  ])("%s", (_what, changes, says) => expect(said(brokenNeutralProtection.id, changes)).toEqual(says));

  it("on three phases the lines need not be at their most together", () => {
    const { document } = example("village-hall");
    const withElectrode = (ohm: number) => ({
      "earthing.arrangement": known("TN-C-S"),
      "nodes[point-a].openPen.method": known("low-resistance-electrode"),
      "nodes[point-a].openPen.electrode": { ...blankElectrode(), resistanceOhm: known(ohm) },
    });
    const says = (ohm: number) => said(brokenNeutralProtection.id, withElectrode(ohm), {}, document)[0];
    expect(says(0.5)).toBe("pass electrodeHolds");
    expect(says(2)).toBe("fail electrodeTooHigh");
  });

  it("a voltage window will not do on three phases, and each point is judged", () => {
    const changes = {
      "earthing.arrangement": known("TN-C-S"),
      "nodes[point-a].openPen.method": known("device-with-voltage-window"),
      "nodes[point-b].openPen.method": known("none"),
    };
    expect(said(brokenNeutralProtection.id, changes, {}, example("village-hall").document)).toEqual([
      "fail windowOnThreePhase",
      "fail none",
    ]);
  });
});
