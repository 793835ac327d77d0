import { describe, expect, it } from "vitest";
import { type Stretch, sketchTrace } from "../../testing/trace-sketch.ts";
import { excursionsOf } from "./excursion.ts";
import { recoveriesOf } from "./recovery.ts";
import type { TraceEvent } from "./trace.ts";

const recovered = (stretches: readonly Stretch[], events: readonly TraceEvent[] = []) => {
  const { timesS, supplyA } = sketchTrace(stretches);
  return recoveriesOf(
    excursionsOf({ timesS, currentA: supplyA.L1 as Float64Array, carA: null }, 60),
    events,
    15,
  );
};

describe("recoveriesOf", () => {
  it("takes excursions together until the limit is kept for the settling time", () => {
    expect(
      recovered([
        [5, 50],
        [4, 70],
        [14, 50],
        [4, 70],
        [20, 50],
      ]),
    ).toMatchObject([{ startS: 5, backS: 27, lengthS: [21, 23] }]);
    expect(
      recovered([
        [5, 50],
        [4, 70],
        [15, 50],
        [4, 70],
        [20, 50],
      ]),
    ).toHaveLength(2);
  });
  it("names what was noted last before, and the time since", () => {
    const events: readonly TraceEvent[] = [
      { atS: 2, what: "restored" },
      { atS: 4, what: "load-on" },
      { atS: 40, what: "bus-lost" },
    ];
    expect(
      recovered(
        [
          [5, 50],
          [4, 70],
          [30, 50],
          [4, 70],
          [20, 50],
          [2, 80],
          [5, 50],
        ],
        events,
      ),
    ).toMatchObject([
      { after: { what: "load-on" }, sinceEventS: 5 },
      { after: { what: "bus-lost" }, sinceEventS: 3 },
      { after: null, sinceEventS: null },
    ]);
  });
  it("has no end where the recording ends first", () => {
    expect(
      recovered([
        [5, 50],
        [4, 70],
      ]),
    ).toMatchObject([{ isUnfinished: true, lengthS: [3, Number.POSITIVE_INFINITY] }]);
  });
});
