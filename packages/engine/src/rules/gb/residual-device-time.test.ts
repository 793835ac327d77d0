import { describe, expect, it } from "vitest";
import { known, NOT_RECORDED } from "../../job/index.ts";
import { type Changes, said } from "../../testing/findings.ts";
import { residualDeviceTime } from "./residual-device-time.ts";

const button = "pass buttonWorks";

describe(residualDeviceTime.id, () => {
  it.each<[what: string, changes: Changes, says: string[]]>([
    ["300 ms", { "tests.circuits[way].rcdTimeMs": known(300) }, ["pass inTime", button]],
    ["301 ms", { "tests.circuits[way].rcdTimeMs": known(301) }, ["fail tooSlow", button]],
    [
      "time-delayed, 130 ms",
      { "nodes[way].residual.isTimeDelayed": known(true), "tests.circuits[way].rcdTimeMs": known(130) },
      ["pass inTimeDelayed", button],
    ],
    [
      "time-delayed, 129 ms",
      { "nodes[way].residual.isTimeDelayed": known(true), "tests.circuits[way].rcdTimeMs": known(129) },
      ["fail tooQuick", button],
    ],
    [
      "time-delayed, 501 ms",
      { "nodes[way].residual.isTimeDelayed": known(true), "tests.circuits[way].rcdTimeMs": known(501) },
      ["fail tooSlow", button],
    ],
    [
      "TT, 200 ms",
      { "earthing.arrangement": known("TT"), "tests.circuits[way].rcdTimeMs": known(200) },
      ["pass inTime", button],
    ],
    [
      "TT, 201 ms says nothing of 0.2 s",
      { "earthing.arrangement": known("TT"), "tests.circuits[way].rcdTimeMs": known(201) },
      ["pass shortTimeUnproved caution", button],
    ],
    [
      "TT, time-delayed, 201 ms says nothing of 0.2 s either",
      {
        "earthing.arrangement": known("TT"),
        "nodes[way].residual.isTimeDelayed": known(true),
        "tests.circuits[way].rcdTimeMs": known(201),
      },
      ["pass shortTimeUnproved caution", button],
    ],
    [
      "an electrode of its own, 201 ms",
      {
        "nodes[car].openPen.method": known("separate-electrode"),
        "tests.circuits[way].rcdTimeMs": known(201),
      },
      ["pass shortTimeUnproved caution", button],
    ],
    [
      "TT, 201 ms but quick at five times",
      {
        "earthing.arrangement": known("TT"),
        "tests.circuits[way].rcdTimeMs": known(201),
        "tests.circuits[way].rcdTimeAtFiveMs": known(38),
      },
      ["pass inTime", "pass atFiveInTime", button],
    ],
    [
      "40 ms at five times",
      { "tests.circuits[way].rcdTimeAtFiveMs": known(40) },
      ["pass inTime", "pass atFiveInTime", button],
    ],
    [
      "41 ms at five times",
      { "tests.circuits[way].rcdTimeAtFiveMs": known(41) },
      ["pass inTime", "fail atFiveTooSlow", button],
    ],
    [
      "time-delayed, 151 ms at five times",
      {
        "nodes[way].residual.isTimeDelayed": known(true),
        "tests.circuits[way].rcdTimeMs": known(200),
        "tests.circuits[way].rcdTimeAtFiveMs": known(151),
      },
      ["pass inTimeDelayed", "fail atFiveTooSlow", button],
    ],
    [
      "the button does nothing",
      { "tests.circuits[way].rcdButtonWorks": known(false) },
      ["pass inTime", "fail buttonDead"],
    ],
    [
      "nobody pressed the button",
      { "tests.circuits[way].rcdButtonWorks": NOT_RECORDED },
      ["pass inTime", "cannot-tell buttonUnknown tests.circuits[way].rcdButtonWorks"],
    ],
    [
      "not measured",
      { "tests.circuits[way].rcdTimeMs": NOT_RECORDED },
      ["cannot-tell unknown tests.circuits[way].rcdTimeMs", button],
    ],
    [
      "no tests at all",
      { "tests.circuits": [] },
      [
        "cannot-tell unknown tests.circuits[way].rcdTimeMs",
        "cannot-tell buttonUnknown tests.circuits[way].rcdButtonWorks",
      ],
    ],
    [
      "delay unknown",
      { "nodes[way].residual.isTimeDelayed": NOT_RECORDED },
      ["cannot-tell unknown nodes[way].residual.isTimeDelayed", button],
    ],
    ["no device", { "nodes[way].residual": null }, ["fail none"]],
  ])("%s", (_what, changes, says) => expect(said(residualDeviceTime.id, changes)).toEqual(says));
});
