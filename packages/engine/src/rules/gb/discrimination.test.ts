import { describe, expect, it } from "vitest";
import { known, NOT_RECORDED } from "../../job/index.ts";
import { type Changes, said } from "../../testing/findings.ts";
import { discrimination } from "./discrimination.ts";

describe(discrimination.id, () => {
  it.each<[what: string, changes: Changes, says: string[]]>([
    [
      "up to 820 A by the gates of a 100 A fuse",
      { "supply.measuredFaultCurrentKa": known(0.8) },
      ["pass full"],
    ],
    ["above, the breaker may let more through than the fuse stands", {}, ["pass partial caution"]],
    [
      "a small breaker lets less through",
      { "nodes[way].overcurrent.ratingA": known(16), "nodes[cut-out].overcurrent.ratingA": known(125) },
      ["pass full"],
    ],
    [
      "energy not published",
      { "nodes[way].overcurrent.curve": known("D") },
      ["cannot-tell partialUnpublished figure: energy let through of Way"],
    ],
    [
      "no curve for the old fuse",
      { "nodes[cut-out].overcurrent.standard": known("bs-1361-ii") },
      ["cannot-tell noFigures figure: time-current curve of the main fuse"],
    ],
    [
      "already in overload",
      {
        "nodes[way].overcurrent.ratingA": known(63),
        "nodes[way].overcurrent.curve": known("D"),
        "nodes[cut-out].overcurrent.ratingA": known(63),
      },
      ["fail overload"],
    ],
    ["behind the cut-out alone", { "cables[way-to-car].from": "board" }, ["not-applicable none"]],
    [
      "unknown",
      { "nodes[way].overcurrent.ratingA": NOT_RECORDED },
      ["cannot-tell unknown nodes[way].overcurrent.ratingA"],
    ],
  ])("%s", (_what, changes, says) => expect(said(discrimination.id, changes)).toEqual(says));
});
