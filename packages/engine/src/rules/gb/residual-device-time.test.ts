import { describe, expect, it } from "vitest";
import { known, NOT_RECORDED } from "../../job/index.ts";
import { type Changes, said } from "../../testing/findings.ts";
import { residualDeviceTime } from "./residual-device-time.ts";

describe(residualDeviceTime.id, () => {
  it.each<[what: string, changes: Changes, says: string[]]>([
    ["300 ms", { "tests.circuits[way].rcdTimeMs": known(300) }, ["pass inTime"]],
    ["301 ms", { "tests.circuits[way].rcdTimeMs": known(301) }, ["fail tooSlow"]],
    [
      "time-delayed, 130 ms",
      { "nodes[way].residual.isTimeDelayed": known(true), "tests.circuits[way].rcdTimeMs": known(130) },
      ["pass inTimeDelayed"],
    ],
    [
      "time-delayed, 129 ms",
      { "nodes[way].residual.isTimeDelayed": known(true), "tests.circuits[way].rcdTimeMs": known(129) },
      ["fail tooQuick"],
    ],
    [
      "time-delayed, 501 ms",
      { "nodes[way].residual.isTimeDelayed": known(true), "tests.circuits[way].rcdTimeMs": known(501) },
      ["fail tooSlow"],
    ],
    [
      "TT, 200 ms",
      { "earthing.arrangement": known("TT"), "tests.circuits[way].rcdTimeMs": known(200) },
      ["pass inTime"],
    ],
    [
      "TT, 201 ms says nothing of 0.2 s",
      { "earthing.arrangement": known("TT"), "tests.circuits[way].rcdTimeMs": known(201) },
      ["pass shortTimeUnproved caution"],
    ],
    [
      "TT, 201 ms but quick at five times",
      {
        "earthing.arrangement": known("TT"),
        "tests.circuits[way].rcdTimeMs": known(201),
        "tests.circuits[way].rcdTimeAtFiveMs": known(38),
      },
      ["pass inTime"],
    ],
    [
      "not measured",
      { "tests.circuits[way].rcdTimeMs": NOT_RECORDED },
      ["cannot-tell unknown tests.circuits[way].rcdTimeMs"],
    ],
    ["no tests at all", { "tests.circuits": [] }, ["cannot-tell unknown tests.circuits[way].rcdTimeMs"]],
    [
      "delay unknown",
      { "nodes[way].residual.isTimeDelayed": NOT_RECORDED },
      ["cannot-tell unknown nodes[way].residual.isTimeDelayed"],
    ],
    ["no device", { "nodes[way].residual": null }, ["fail none"]],
  ])("%s", (_what, changes, says) => expect(said(residualDeviceTime.id, changes)).toEqual(says));
});
