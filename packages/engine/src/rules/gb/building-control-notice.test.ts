import { describe, expect, it } from "vitest";
import { known, NOT_RECORDED } from "../../job/index.ts";
import { type Changes, said } from "../../testing/findings.ts";
import { buildingControlNotice } from "./building-control-notice.ts";

describe(buildingControlNotice.id, () => {
  it.each<[what: string, changes: Changes, says: string[]]>([
    ["told in time by the scheme", {}, ["pass selfCertified"]],
    ["on the thirtieth day", { "work.buildingControlToldOn": known("2026-12-17") }, ["pass selfCertified"]],
    [
      "on the thirty-first",
      { "work.buildingControlToldOn": known("2026-12-18") },
      ["fail selfCertifiedLate"],
    ],
    [
      "not told yet",
      { "work.buildingControlToldOn": NOT_RECORDED },
      ["cannot-tell selfCertifyDue work.buildingControlToldOn"],
    ],
    [
      "not registered, told on Wednesday, started on Monday: Thursday and Friday passed",
      { "work.installerIsRegistered": known(false), "work.buildingControlToldOn": known("2026-11-11") },
      ["pass noticeGiven"],
    ],
    [
      "not registered, told on Thursday",
      { "work.installerIsRegistered": known(false), "work.buildingControlToldOn": known("2026-11-12") },
      ["fail noticeLate"],
    ],
    [
      "not registered, told after the start",
      { "work.installerIsRegistered": known(false), "work.buildingControlToldOn": known("2026-11-25") },
      ["fail noticeLate"],
    ],
    [
      "not registered, the start not known",
      {
        "work.installerIsRegistered": known(false),
        "work.buildingControlToldOn": known("2026-11-11"),
        "work.startsOn": NOT_RECORDED,
      },
      ["cannot-tell noticeFirst work.startsOn"],
    ],
    [
      "not registered, not told",
      { "work.installerIsRegistered": known(false), "work.buildingControlToldOn": NOT_RECORDED },
      ["cannot-tell noticeFirst work.buildingControlToldOn"],
    ],
    [
      "not live yet",
      {
        "work.energisedOn": NOT_RECORDED,
        "work.signedOn": NOT_RECORDED,
        "work.buildingControlToldOn": NOT_RECORDED,
      },
      ["not-applicable selfCertifyLater"],
    ],
    [
      "certified, and nobody wrote down since when it is live",
      { "work.energisedOn": NOT_RECORDED },
      ["cannot-tell dateUnknown work.energisedOn"],
    ],
    ["not a dwelling", { "site.premises": known("other") }, ["not-applicable notDwelling"]],
    ["no new circuit", { "work.addsCircuit": known(false) }, ["not-applicable noNewCircuit"]],
    [
      "unknown",
      { "work.installerIsRegistered": NOT_RECORDED },
      ["cannot-tell unknown work.installerIsRegistered"],
    ],
  ])("%s", (_what, changes, says) => expect(said(buildingControlNotice.id, changes)).toEqual(says));
});
