import { describe, expect, it } from "vitest";
import { known, NOT_RECORDED } from "../../job/index.ts";
import { type Changes, said } from "../../testing/findings.ts";
import { smartChargePoint } from "./smart-charge-point.ts";

describe(smartChargePoint.id, () => {
  it.each<[what: string, changes: Changes, says: string[]]>([
    ["all in order", {}, ["pass meets"]],
    ["no statement", { "nodes[car].smart.hasStatement": known(false) }, ["fail noStatement"]],
    ["no default hours", { "nodes[car].smart.offersDefaultHours": known(false) }, ["fail noDefaultHours"]],
    ["needs the network", { "nodes[car].smart.chargesWithoutNetwork": known(false) }, ["fail needsNetwork"]],
    ["601 s", { "nodes[car].smart.randomDelayDefaultS": known(601) }, ["fail delayTooLong"]],
    ["only up to 1799 s", { "nodes[car].smart.randomDelayCapabilityS": known(1799) }, ["fail delayTooShort"]],
    [
      "unknown",
      { "nodes[car].smart.offersDefaultHours": NOT_RECORDED },
      ["cannot-tell unknown nodes[car].smart.offersDefaultHours"],
    ],
    ["public", { "nodes[car].isPrivate": known(false) }, ["not-applicable public"]],
    ["sold the day before", { "nodes[car].soldOn": known("2022-06-29") }, ["not-applicable soldBefore"]],
    ["sold on the day", { "nodes[car].soldOn": known("2022-06-30") }, ["pass meets"]],
  ])("%s", (_what, changes, says) => expect(said(smartChargePoint.id, changes)).toEqual(says));
});
