import { describe, expect, it } from "vitest";
import { known, NOT_RECORDED } from "../../job/index.ts";
import { type Changes, said } from "../../testing/findings.ts";
import { wiringRulesEdition } from "./wiring-rules-edition.ts";

describe(wiringRulesEdition.id, () => {
  it.each<[what: string, changes: Changes, says: string[]]>([
    ["the fourth amendment", {}, ["pass inForce"]],
    [
      "the second, last day",
      {
        "work.wiringRules": known("bs7671-2018-a2-2022"),
        "work.designedOn": known("2026-10-01"),
        "work.signedOn": known("2026-10-14"),
      },
      ["pass inForce"],
    ],
    [
      "the second, designed in time, signed a day late",
      {
        "work.wiringRules": known("bs7671-2018-a2-2022"),
        "work.designedOn": known("2026-10-01"),
        "work.signedOn": known("2026-10-15"),
      },
      ["pass designedBefore caution"],
    ],
    [
      "the second, designed and signed too late",
      { "work.wiringRules": known("bs7671-2018-a2-2022") },
      ["fail withdrawn"],
    ],
    [
      "the second, designed too late, not signed",
      { "work.wiringRules": known("bs7671-2018-a2-2022"), "work.signedOn": NOT_RECORDED },
      ["fail withdrawn"],
    ],
    [
      "the fourth before it was there",
      { "work.designedOn": known("2026-04-01"), "work.signedOn": known("2026-04-14") },
      ["fail notYet"],
    ],
    [
      "the fourth on its first day",
      { "work.designedOn": known("2026-04-15"), "work.signedOn": known("2026-04-15") },
      ["pass inForce"],
    ],
    [
      "the fourth for a design of the day before",
      { "work.designedOn": known("2026-04-14"), "work.signedOn": known("2026-04-15") },
      ["pass laterThanDesign caution"],
    ],
    ["undecided", { "work.wiringRules": NOT_RECORDED }, ["cannot-tell unknown work.wiringRules"]],
  ])("%s", (_what, changes, says) => expect(said(wiringRulesEdition.id, changes)).toEqual(says));
});
