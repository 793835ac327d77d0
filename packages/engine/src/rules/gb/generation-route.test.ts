import { describe, expect, it } from "vitest";
import { known, NOT_RECORDED } from "../../job/index.ts";
import { type Changes, said } from "../../testing/findings.ts";
import { generationRoute } from "./generation-route.ts";

describe(generationRoute.id, () => {
  it.each<[what: string, changes: Changes, says: string[]]>([
    ["nothing feeds back", {}, ["not-applicable none"]],
    ["16 A from the car: notify", { "nodes[car].exportA": known(16) }, ["pass notify notify-after"]],
    [
      "more: apply",
      { "nodes[car].exportA": known(16.1) },
      ["cannot-tell apply apply-first supply.operator.answer"],
    ],
    [
      "more, and answered",
      { "nodes[car].exportA": known(32), "supply.operator.answer": known("may-proceed") },
      ["pass answered"],
    ],
    ["unknown", { "nodes[car].exportA": NOT_RECORDED }, ["cannot-tell unknown nodes[car].exportA"]],
  ])("%s", (_what, changes, says) => expect(said(generationRoute.id, changes)).toEqual(says));
});
