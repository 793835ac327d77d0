import { describe, expect, it } from "vitest";
import { known, NOT_RECORDED } from "../../job/index.ts";
import { type Changes, said } from "../../testing/findings.ts";
import { operatorDeadline } from "./operator-deadline.ts";

const unsent = { "supply.operator.notifiedOn": NOT_RECORDED };

describe(operatorDeadline.id, () => {
  it.each<[what: string, changes: Changes, onIso: string, says: string[]]>([
    ["on the last day", { "supply.operator.notifiedOn": known("2026-12-15") }, "2026-11-25", ["pass inTime"]],
    ["a day late", { "supply.operator.notifiedOn": known("2026-12-16") }, "2026-11-25", ["fail late"]],
    ["not sent, the last day", unsent, "2026-12-15", ["cannot-tell due supply.operator.notifiedOn"]],
    ["not sent, the day after", unsent, "2026-12-16", ["fail overdue"]],
    [
      "sent, though the operator has to answer first",
      { "supply.isLooped": known(true) },
      "2026-11-25",
      ["cannot-tell routeOpen supply.operator.answer"],
    ],
    [
      "sent, though the operator refused",
      { "supply.operator.answer": known("may-not-proceed") },
      "2026-11-25",
      ["cannot-tell routeOpen supply.operator.answer"],
    ],
    [
      "sent, the service not looked at",
      { "supply.serviceConcerns": NOT_RECORDED },
      "2026-11-25",
      ["cannot-tell routeOpen supply.serviceConcerns"],
    ],
    [
      "not sent, and the operator has to answer first",
      { ...unsent, "supply.isLooped": known(true) },
      "2026-11-25",
      ["cannot-tell routeOpen supply.operator.answer"],
    ],
    [
      "not live yet",
      { "work.energisedOn": NOT_RECORDED, "work.signedOn": NOT_RECORDED },
      "2026-11-25",
      ["not-applicable notYet"],
    ],
    [
      "certified, and nobody wrote down since when it is live",
      { "work.energisedOn": NOT_RECORDED },
      "2026-11-25",
      ["cannot-tell dateUnknown work.energisedOn"],
    ],
  ])("%s", (_what, changes, onIso, says) =>
    expect(said(operatorDeadline.id, changes, { onIso })).toEqual(says),
  );
});
