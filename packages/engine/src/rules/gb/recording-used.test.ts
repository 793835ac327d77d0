import { describe, expect, it } from "vitest";
import { known, NOT_RECORDED } from "../../job/index.ts";
import type { AssessmentInputs } from "../../rules/index.ts";
import { type Changes, said } from "../../testing/findings.ts";
import { soundJob } from "../../testing/sound-job.ts";
import { recordingUsed } from "./recording-used.ts";

const log = "demand.recordings[log]";
const file = {
  kind: "interval-series",
  id: "file",
  line: "L1",
  file: "logger.csv",
  columns: { delimiter: ";", date: "Date", dateOrder: "day/month/year", time: "Time", current: "Amps" },
  unit: "A",
  intervalS: 60,
  labels: "start",
  from: "2026-10-01",
  until: "2026-10-14",
  doesNotInclude: [],
};
const only = { "demand.recordings": [file] };
const read = (days: number, currentA: number): Partial<AssessmentInputs> => ({
  series: new Map([["file", { intervalS: 60, currentA: new Float64Array(days * 1440).fill(currentA) }]]),
});

describe(recordingUsed.id, () => {
  it.each<[what: string, changes: Changes, inputs: Partial<AssessmentInputs>, says: string[]]>([
    ["14 days", { [`${log}.days`]: known(14) }, {}, ["pass used"]],
    ["a day less", { [`${log}.days`]: known(13) }, {}, ["cannot-tell tooShort demand.recordings"]],
    ["length unknown", { [`${log}.days`]: NOT_RECORDED }, {}, [`cannot-tell unknown ${log}.days`]],
    ["maximum unknown", { [`${log}.maximumA`]: NOT_RECORDED }, {}, [`cannot-tell unknown ${log}.maximumA`]],
    [
      "a mean over a time for which no ratio is held",
      { [`${log}.averagingMin`]: known(120) },
      {},
      ["cannot-tell unknown figure: peak ratio for means over 120 min"],
    ],
    [
      "below a shower that it is said to contain",
      { "nodes[house].purpose": "instantaneous-water-heater", "nodes[house].ratedA": known(41.3) },
      {},
      [`cannot-tell cannotContain ${log}.doesNotInclude`],
    ],
    [
      "below a shower that it does not contain",
      {
        "nodes[house].purpose": "instantaneous-water-heater",
        "nodes[house].ratedA": known(41.3),
        [`${log}.doesNotInclude`]: ["house"],
      },
      {},
      ["pass used"],
    ],
    ["a file that was read", only, read(14, 25), ["pass used"]],
    ["a file of thirteen days", only, read(13, 25), ["cannot-tell tooShort demand.recordings"]],
    [
      "a file that was not read",
      only,
      { unread: new Map([["file", "there is no such file"]]) },
      ["cannot-tell unreadable demand.recordings[file].file"],
    ],
    [
      "a file without a reading",
      only,
      read(14, Number.NaN),
      ["cannot-tell empty demand.recordings[file].file"],
    ],
    [
      "the shorter of two",
      { "demand.recordings": [file, { ...file, id: "second" }] },
      {
        series: new Map(
          [14, 15].map((days, index) => [
            ["file", "second"][index] ?? "",
            { intervalS: 60, currentA: new Float64Array(days * 1440).fill(25) },
          ]),
        ),
      },
      ["not-applicable betterUsed", "pass used"],
    ],
    [
      "a shorter one that reached higher",
      {
        "demand.recordings": [
          soundJob().demand.recordings[0],
          { ...soundJob().demand.recordings[0], id: "winter", maximumA: known(40), days: known(10) },
        ],
      },
      {},
      ["pass used", "pass raises caution"],
    ],
    ["of a line that is not there", { [`${log}.line`]: "L2" }, {}, [`cannot-tell noSuchLine ${log}.line`]],
    [
      "a file that was read, beside a load whose rating is not known",
      { "demand.recordings": [{ ...file, doesNotInclude: ["house"] }], "nodes[house].ratedA": NOT_RECORDED },
      read(14, 25),
      ["cannot-tell unknown nodes[house].ratedA"],
    ],
    ["none", { "demand.recordings": [] }, {}, ["not-applicable none"]],
  ])("%s", (_what, changes, inputs, says) => expect(said(recordingUsed.id, changes, inputs)).toEqual(says));
});
