import { describe, expect, it } from "vitest";
import { known, NOT_RECORDED } from "../../job/index.ts";
import { type Changes, said } from "../../testing/findings.ts";
import { discrimination } from "./discrimination.ts";

const stated = "nodes[way].discriminatesUpToA";

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
      [`cannot-tell partialUnpublished ${stated}`],
    ],
    [
      "no curve for the old fuse",
      { "nodes[cut-out].overcurrent.standard": known("bs-1361-ii") },
      [`cannot-tell noFigures ${stated}`],
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
    [
      "the maker states it up to the 1.18 kA prospective at the way",
      { "nodes[way].overcurrent.curve": known("D"), [stated]: known(1200) },
      ["pass stated"],
    ],
    [
      "the maker states less",
      { "nodes[way].overcurrent.curve": known("D"), [stated]: known(1000) },
      ["pass statedPartly caution"],
    ],
    [
      "the maker states it, no curve is held for the old fuse",
      { "nodes[cut-out].overcurrent.standard": known("bs-1361-ii"), [stated]: known(6000) },
      ["pass stated"],
    ],
    [
      "the maker's statement does not save what fails in overload",
      {
        "nodes[way].overcurrent.ratingA": known(63),
        "nodes[way].overcurrent.curve": known("D"),
        "nodes[cut-out].overcurrent.ratingA": known(63),
        [stated]: known(6000),
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
