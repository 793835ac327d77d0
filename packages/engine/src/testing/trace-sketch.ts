import { timeCurrentBand } from "../protection/index.ts";
import type { Trace, TraceBounds, TraceEvent } from "../proving/index.ts";
import { protection } from "./knowledge.ts";

/** A stretch of a trace: how many samples, supply and car current in each. */
export type Stretch = readonly [samples: number, supplyA: number, carA?: number];

/** A single-phase trace of stretches, sampled evenly; the car draws 0 A unless said. */
export function sketchTrace(
  stretches: readonly Stretch[],
  events: readonly TraceEvent[] = [],
  stepS = 1,
): Trace {
  const supply = stretches.flatMap(([samples, supplyA]) => Array<number>(samples).fill(supplyA));
  const car = stretches.flatMap(([samples, , carA = 0]) => Array<number>(samples).fill(carA));
  return {
    timesS: Float64Array.from(supply, (_, index) => index * stepS),
    supplyA: { L1: Float64Array.from(supply) },
    carA: { L1: Float64Array.from(car) },
    events,
  };
}

/** A 63 A fuse with its band, a limit of 60 A, one charge point that falls back to 6 A within 10 s. */
export const sketchBounds = (changes: Partial<TraceBounds> = {}): TraceBounds => ({
  lines: ["L1"],
  limitA: 60,
  isLimitSet: true,
  fallbackA: 6,
  pointCount: { L1: 1 },
  timeOutS: 10,
  typicalS: 15,
  longestS: 60,
  fuseRatingA: 63,
  fuseBand: fuseBand63(),
  ...changes,
});

const fuseBand63 = () => {
  const row = protection.fuseGates.rows.find(({ ratingA }) => ratingA === 63);
  if (row === undefined) throw new Error("no gates at 63 A");
  const fact = (value: unknown) => ({
    state: "known",
    value,
    basis: "measured",
    path: "",
    guide: { title: "", ask: "" },
  });
  return timeCurrentBand(
    { standard: fact("bs-88-3"), ratingA: fact(63) } as unknown as Parameters<typeof timeCurrentBand>[0],
    protection,
  );
};

/** A trial in which everything is in order: one load step, then each loss while the car charges. */
export const soundTrace = (stepS = 1): Trace => {
  const per = Math.round(1 / stepS);
  const times = (seconds: number): number => seconds * per;
  const loss = (): readonly Stretch[] => [
    [times(5), 50, 32],
    [times(30), 24, 6],
    [times(25), 50, 32],
  ];
  return sketchTrace(
    [
      [times(20), 50, 32],
      [times(8), 70, 32],
      [times(32), 58, 20],
      [times(20), 50, 32],
      ...loss(),
      ...loss(),
      ...loss(),
    ],
    [
      { atS: 20, what: "load-on" },
      { atS: 80, what: "bus-lost" },
      { atS: 115, what: "restored" },
      { atS: 140, what: "meter-lost" },
      { atS: 175, what: "restored" },
      { atS: 200, what: "manager-lost" },
      { atS: 235, what: "restored" },
    ],
    stepS,
  );
};
