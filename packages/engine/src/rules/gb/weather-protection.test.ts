import { describe, expect, it } from "vitest";
import { known, NOT_RECORDED } from "../../job/index.ts";
import { type Changes, said } from "../../testing/findings.ts";
import { weatherProtection } from "./weather-protection.ts";

describe(weatherProtection.id, () => {
  it.each<[what: string, changes: Changes, says: string[]]>([
    ["IP54", {}, ["pass enough"]],
    ["IPX4", { "nodes[car].inletIp": known("IPX4") }, ["pass enough"]],
    ["IP43", { "nodes[car].inletIp": known("IP43") }, ["fail tooLittle"]],
    ["water not stated", { "nodes[car].inletIp": known("IP5X") }, ["fail tooLittle"]],
    [
      "indoors",
      { "nodes[car].isOutdoors": known(false), "nodes[car].inletIp": known("IP20") },
      ["not-applicable indoors"],
    ],
    ["unknown", { "nodes[car].inletIp": NOT_RECORDED }, ["cannot-tell unknown nodes[car].inletIp"]],
  ])("%s", (_what, changes, says) => expect(said(weatherProtection.id, changes)).toEqual(says));
});
