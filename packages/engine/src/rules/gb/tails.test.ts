import { describe, expect, it } from "vitest";
import { known, NOT_RECORDED } from "../../job/index.ts";
import { type Changes, said } from "../../testing/findings.ts";
import { tails } from "./tails.ts";

describe(tails.id, () => {
  it.each<[what: string, changes: Changes, says: string[]]>([
    ["short and thick", {}, ["pass short", "pass size", "pass size"]],
    [
      "three metres in all",
      { "cables[cut-out-to-meter].run.lengthM": known(2) },
      ["pass short", "pass size", "pass size"],
    ],
    [
      "over three metres",
      { "cables[cut-out-to-meter].run.lengthM": known(2.1) },
      ["fail long", "pass size", "pass size"],
    ],
    [
      "over three metres, agreed",
      { "cables[cut-out-to-meter].run.lengthM": known(2.1), "supply.operator.agreesLongTails": known(true) },
      ["pass agreed", "pass size", "pass size"],
    ],
    [
      "16 mm² behind 100 A",
      { "cables[cut-out-to-meter].run.lineMm2": known(16) },
      ["pass short", "fail thin", "pass size"],
    ],
    [
      "16 mm² behind 80 A",
      { "cables[cut-out-to-meter].run.lineMm2": known(16), "nodes[cut-out].overcurrent.ratingA": known(80) },
      ["pass short", "pass size", "pass size"],
    ],
    [
      "length unknown",
      { "cables[cut-out-to-meter].run.lengthM": NOT_RECORDED },
      ["cannot-tell longUnknown cables[cut-out-to-meter].run.lengthM", "pass size", "pass size"],
    ],
    [
      "size unknown",
      { "cables[cut-out-to-meter].run.lineMm2": NOT_RECORDED },
      ["pass short", "cannot-tell sizeUnknown cables[cut-out-to-meter].run.lineMm2", "pass size"],
    ],
    [
      "nobody has looked",
      { "cables[cut-out-to-meter].run": "not-surveyed" },
      [
        "cannot-tell longUnknown cables[cut-out-to-meter].run",
        "cannot-tell notSurveyed cables[cut-out-to-meter].run",
        "pass size",
      ],
    ],
    [
      "a device right behind the cut-out",
      { "cables[cut-out-to-meter].run": "busbar", "cables[meter-to-board].run": "busbar" },
      ["not-applicable none"],
    ],
    [
      "fuse unknown",
      { "nodes[cut-out].overcurrent.ratingA": NOT_RECORDED },
      [
        "pass short",
        "cannot-tell sizeUnknown nodes[cut-out].overcurrent.ratingA",
        "cannot-tell sizeUnknown nodes[cut-out].overcurrent.ratingA",
      ],
    ],
  ])("%s", (_what, changes, says) => expect(said(tails.id, changes)).toEqual(says));
});
