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
      "not registered, told the day before",
      { "work.installerIsRegistered": known(false), "work.buildingControlToldOn": known("2026-11-15") },
      ["pass noticeGiven"],
    ],
    [
      "not registered, told on the day",
      { "work.installerIsRegistered": known(false), "work.buildingControlToldOn": known("2026-11-16") },
      ["fail noticeLate"],
    ],
    [
      "not registered, not told",
      { "work.installerIsRegistered": known(false), "work.buildingControlToldOn": NOT_RECORDED },
      ["cannot-tell noticeFirst work.buildingControlToldOn"],
    ],
    [
      "not live yet",
      { "work.energisedOn": NOT_RECORDED, "work.buildingControlToldOn": NOT_RECORDED },
      ["not-applicable selfCertifyLater"],
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
