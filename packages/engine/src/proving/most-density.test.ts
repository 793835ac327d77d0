import { describe, expect, it } from "vitest";
import type { Evidence } from "./evidence.ts";
import { MostDensity } from "./most-density.ts";
import type { ObservationModel } from "./observation-model.ts";

const NONE = Number.NaN;
const evidence: Evidence = {
  lines: 1,
  steps: [
    {
      carA: [0],
      loadW: [0],
      mayExport: false,
      V: [NONE],
      I: [4],
      P: [1000],
      Q: [0],
      totalP: NONE,
      totalQ: NONE,
      clampA: [10],
    },
  ],
  resolution: { V: 0.1, I: 0.01, P: 2, Q: 2 },
  carIsMeasured: false,
};
const mostUnder = (scale: number, clipA = Number.POSITIVE_INFINITY) =>
  new MostDensity().of({ scale, clipA } as ObservationModel, evidence, 0);
/** A normal density at its mean, as a logarithm. */
const peak = (variance: number): number => Math.log(1 / Math.sqrt(2 * Math.PI * variance));

describe("MostDensity", () => {
  it("lets a reading add what it would add if it were just as expected", () => {
    const { P, I, totalsAndClamps } = mostUnder(1);
    // 15 W at the low end, 0.5 % of the reading, one step of 2 W spread evenly.
    expect(P[0]).toBeCloseTo(peak(15 ** 2 + 5 ** 2 + 2 ** 2 / 12), 12);
    expect(I[0]).toBeCloseTo(peak(0.08 ** 2 + 0.02 ** 2 + 0.01 ** 2 / 12), 12);
    expect(totalsAndClamps).toBeCloseTo(peak(0.2 ** 2), 12);
  });

  it("lets a wrong setting, which shows less, be known better", () => {
    expect(mostUnder(0.2).P[0]).toBeCloseTo(peak(3 ** 2 + 5 ** 2 + 2 ** 2 / 12), 12);
  });

  it("takes a zero, and anything where a channel may be cut off, as within one step of the display", () => {
    expect(mostUnder(1).Q[0]).toBeCloseTo(-Math.log(2), 12);
    expect(mostUnder(1, 60).P[0]).toBeCloseTo(-Math.log(2), 12);
  });
});
