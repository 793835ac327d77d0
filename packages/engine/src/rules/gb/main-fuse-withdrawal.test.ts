import { describe, expect, it } from "vitest";
import { known, NOT_RECORDED } from "../../job/index.ts";
import { type Changes, said } from "../../testing/findings.ts";
import { mainFuseWithdrawal } from "./main-fuse-withdrawal.ts";

describe(mainFuseWithdrawal.id, () => {
  it.each<[what: string, changes: Changes, says: string[]]>([
    ["not needed", {}, ["not-applicable notNeeded"]],
    [
      "needed, permission on file",
      { "work.needsFuseWithdrawal": known(true), "supply.operator.allowsFuseWithdrawal": known(true) },
      ["pass allowed"],
    ],
    [
      "needed, refused",
      { "work.needsFuseWithdrawal": known(true), "supply.operator.allowsFuseWithdrawal": known(false) },
      ["fail refused stop"],
    ],
    [
      "needed, not asked",
      { "work.needsFuseWithdrawal": known(true) },
      ["cannot-tell ask contact-operator supply.operator.allowsFuseWithdrawal"],
    ],
    [
      "unknown",
      { "work.needsFuseWithdrawal": NOT_RECORDED },
      ["cannot-tell unknown work.needsFuseWithdrawal"],
    ],
  ])("%s", (_what, changes, says) => expect(said(mainFuseWithdrawal.id, changes)).toEqual(says));
});
