import { describe, expect, it } from "vitest";
import { known, NOT_RECORDED } from "../../job/index.ts";
import { type Changes, said } from "../../testing/findings.ts";
import { overloadProtection } from "./overload-protection.ts";

describe(overloadProtection.id, () => {
  it.each<[what: string, changes: Changes, says: string[]]>([
    ["32 A through 32 A, cables carry it", {}, ["pass load", "pass cable", "pass cable", "pass cable"]],
    [
      "a point larger than its device",
      { "nodes[car].ratedA": known(32.1) },
      ["fail loadAbove", "pass cable", "pass cable", "pass cable"],
    ],
    [
      "a device larger than its cable carries",
      { "nodes[way].overcurrent.ratingA": known(50) },
      ["pass load", "pass cable", "pass cable", "fail cableBelow"],
    ],
    [
      "on the limit: 47 A",
      { "nodes[way].overcurrent.ratingA": known(47) },
      ["pass load", "pass cable", "pass cable", "pass cable"],
    ],
    [
      "a semi-enclosed fuse is slow: 32 / 0.725",
      { "nodes[way].overcurrent.standard": known("bs-3036"), "cables[way-to-car].run.method": known("100") },
      ["pass load", "pass cable", "pass cable", "fail cableFactoredBelow"],
    ],
    [
      "in the ground a device is slow too: 32 / 0.9",
      {
        "cables[way-to-car].run.method": known("D"),
        "cables[way-to-car].run.construction": known("armoured"),
        "cables[way-to-car].run.soilThermalResistivityKmW": known(2.5),
        "cables[way-to-car].run.burialDepthM": known(0.6),
        "cables[way-to-car].run.ambientC": known(20),
      },
      ["pass load", "pass cable", "pass cable", "pass cableFactored"],
    ],
    [
      "tails too thin for the fuse",
      { "cables[meter-to-board].run.lineMm2": known(16) },
      ["pass load", "pass cable", "fail cableBelow", "pass cable"],
    ],
    [
      "rating unknown",
      { "nodes[way].overcurrent.ratingA": NOT_RECORDED },
      [
        "cannot-tell loadUnknown nodes[way].overcurrent.ratingA",
        "pass cable",
        "pass cable",
        "cannot-tell cableUnknown nodes[way].overcurrent.ratingA",
      ],
    ],
    [
      "method unknown",
      { "cables[way-to-car].run.method": NOT_RECORDED },
      ["pass load", "pass cable", "pass cable", "cannot-tell cableUnknown cables[way-to-car].run.method"],
    ],
    [
      "nobody has looked",
      { "cables[way-to-car].run": "not-surveyed" },
      ["pass load", "pass cable", "pass cable", "cannot-tell notSurveyed cables[way-to-car].run"],
    ],
  ])("%s", (_what, changes, says) => expect(said(overloadProtection.id, changes)).toEqual(says));
});
