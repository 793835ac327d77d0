import { describe, expect, it } from "vitest";
import { known, NOT_RECORDED } from "../../job/index.ts";
import { type Changes, said } from "../../testing/findings.ts";
import { newBuildingChargePoint } from "./new-building-charge-point.ts";

describe(newBuildingChargePoint.id, () => {
  it.each<[what: string, changes: Changes, says: string[]]>([
    ["an existing building", {}, ["not-applicable existing"]],
    ["new building, managed", { "site.isNewBuilding": known(true) }, ["pass managed caution"]],
    ["new building, unmanaged", { "site.isNewBuilding": known(true), limiter: null }, ["pass meets"]],
    [
      "7000 W",
      { "site.isNewBuilding": known(true), limiter: null, "nodes[car].declaredOutputW": known(7000) },
      ["pass meets"],
    ],
    [
      "6999 W",
      { "site.isNewBuilding": known(true), "nodes[car].declaredOutputW": known(6999) },
      ["fail weak"],
    ],
    [
      "a lead of its own",
      { "site.isNewBuilding": known(true), "nodes[car].outlet": known("tethered") },
      ["fail tethered"],
    ],
    [
      "not mode 3",
      { "site.isNewBuilding": known(true), "nodes[car].isMode3": known(false) },
      ["fail notMode3"],
    ],
    [
      "no indicator",
      { "site.isNewBuilding": known(true), "nodes[car].hasStatusIndicator": known(false) },
      ["fail noIndicator"],
    ],
    ["unknown", { "site.isNewBuilding": NOT_RECORDED }, ["cannot-tell unknown site.isNewBuilding"]],
    [
      "output unknown",
      { "site.isNewBuilding": known(true), "nodes[car].declaredOutputW": NOT_RECORDED },
      ["cannot-tell unknown nodes[car].declaredOutputW"],
    ],
  ])("%s", (_what, changes, says) => expect(said(newBuildingChargePoint.id, changes)).toEqual(says));
});
