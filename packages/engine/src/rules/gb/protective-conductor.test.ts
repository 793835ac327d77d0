import { describe, expect, it } from "vitest";
import { known, NOT_RECORDED, notApplicable } from "../../job/index.ts";
import { type Changes, said } from "../../testing/findings.ts";
import { protectiveConductor } from "./protective-conductor.ts";

describe(protectiveConductor.id, () => {
  it.each<[what: string, changes: Changes, says: string[]]>([
    ["as large as the line", {}, ["pass byTable"]],
    [
      "2.5 mm² beside 6, a 6 kA breaker lets 45 000 A²s through",
      {
        "cables[way-to-car].run.protective.mm2": known(2.5),
        "cables[way-to-car].run.protective.form": known("core"),
      },
      ["pass adiabatic"],
    ],
    [
      "1.5 mm² in the cable asks for 1.84",
      {
        "cables[way-to-car].run.protective.mm2": known(1.5),
        "cables[way-to-car].run.protective.form": known("core"),
      },
      ["fail tooSmall"],
    ],
    [
      "armour is judged by its area",
      {
        "cables[way-to-car].run.protective.form": known("armour"),
        "cables[way-to-car].run.protective.mm2": known(22),
      },
      ["pass adiabatic"],
    ],
    [
      "a fuse has no printed energy: current and time decide",
      {
        "nodes[way].overcurrent.standard": known("bs-88-3"),
        "nodes[way].overcurrent.curve": notApplicable("a fuse"),
        "cables[way-to-car].run.protective.mm2": known(2.5),
      },
      ["pass adiabatic"],
    ],
    ["none", { "cables[way-to-car].run.protective.form": known("none") }, ["fail absent"]],
    [
      "form unknown",
      { "cables[way-to-car].run.protective.form": NOT_RECORDED },
      ["cannot-tell unknown cables[way-to-car].run.protective.form"],
    ],
    [
      "size unknown",
      { "cables[way-to-car].run.protective.mm2": NOT_RECORDED },
      ["cannot-tell unknown cables[way-to-car].run.protective.mm2"],
    ],
    [
      "nobody has looked",
      { "cables[way-to-car].run": "not-surveyed" },
      ["cannot-tell notSurveyed cables[way-to-car].run"],
    ],
  ])("%s", (_what, changes, says) => expect(said(protectiveConductor.id, changes)).toEqual(says));
});
