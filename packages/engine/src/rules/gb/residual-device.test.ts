import { describe, expect, it } from "vitest";
import { known, NOT_RECORDED } from "../../job/index.ts";
import { type Changes, said } from "../../testing/findings.ts";
import { residualDevice } from "./residual-device.ts";

const residualOf = (type: "A" | "AC") => ({
  type: known(type),
  ratedResidualMa: known(30),
  isTimeDelayed: known(false),
  opensAllLiveConductors: known(true),
});

describe(residualDevice.id, () => {
  it.each<[what: string, changes: Changes, says: string[]]>([
    ["30 mA, two poles, its own", {}, ["pass own"]],
    ["100 mA", { "nodes[way].residual.ratedResidualMa": known(100) }, ["fail tooLarge"]],
    [
      "leaves the neutral closed",
      { "nodes[way].residual.opensAllLiveConductors": known(false) },
      ["fail singlePole"],
    ],
    ["time-delayed", { "nodes[way].residual.isTimeDelayed": known(true) }, ["fail delayed"]],
    [
      "delay unknown",
      { "nodes[way].residual.isTimeDelayed": NOT_RECORDED },
      ["cannot-tell unknown nodes[way].residual.isTimeDelayed"],
    ],
    ["none", { "nodes[way].residual": null }, ["fail none"]],
    [
      "shared with the board",
      { "nodes[way].residual": null, "nodes[board].residual": residualOf("A") },
      ["fail shared"],
    ],
    [
      "inside the charge point",
      { "nodes[way].residual": null, "nodes[car].residualInside": residualOf("A") },
      ["pass own"],
    ],
    [
      "poles unknown",
      { "nodes[way].residual.opensAllLiveConductors": NOT_RECORDED },
      ["cannot-tell unknown nodes[way].residual.opensAllLiveConductors"],
    ],
    [
      "current unknown",
      { "nodes[way].residual.ratedResidualMa": NOT_RECORDED },
      ["cannot-tell unknown nodes[way].residual.ratedResidualMa"],
    ],
  ])("%s", (_what, changes, says) => expect(said(residualDevice.id, changes)).toEqual(says));
});
