import { describe, expect, it } from "vitest";
import { known, NOT_RECORDED } from "../../job/index.ts";
import { type Changes, said } from "../../testing/findings.ts";
import { operatorDeadline } from "./operator-deadline.ts";

describe(operatorDeadline.id, () => {
  it.each<[what: string, changes: Changes, says: string[]]>([
    ["on the last day", { "supply.operator.notifiedOn": known("2026-12-15") }, ["pass inTime"]],
    ["a day late", { "supply.operator.notifiedOn": known("2026-12-16") }, ["fail late"]],
    [
      "not yet sent, still time",
      { "supply.operator.notifiedOn": NOT_RECORDED },
      ["cannot-tell due supply.operator.notifiedOn"],
    ],
    ["not live yet", { "work.energisedOn": NOT_RECORDED }, ["not-applicable notYet"]],
  ])("%s", (_what, changes, says) => expect(said(operatorDeadline.id, changes)).toEqual(says));
});
