import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { EngineError } from "../../quantities/index.ts";
import { type Stretch, sketchBounds, sketchTrace, soundTrace } from "../../testing/trace-sketch.ts";
import type { ClaimId, TraceVerdict } from "./claim.ts";
import { type JudgedTrace, judgeTrace } from "./judge-trace.ts";
import { TRACE_EVENTS, type Trace, type TraceEvent } from "./trace.ts";
import type { TraceBounds } from "./trace-bounds.ts";

const saidOf = ({ lines: [line] }: JudgedTrace, id: ClaimId): string =>
  (line?.claims ?? [])
    .filter(({ claim }) => claim === id)
    .map(({ verdict, reason }) => `${verdict} ${reason}`)
    .join("; ");
const said = (id: ClaimId, trace: Trace, bounds: Partial<TraceBounds> = {}): string =>
  saidOf(judgeTrace(trace, sketchBounds(bounds)), id);
const overFor = (samples: number, stepS = 1, overA = 70): Trace =>
  sketchTrace(
    [
      [100, 50, 32],
      [samples, overA, 32],
      [100, 50, 12],
    ],
    [],
    stepS,
  );

describe("judgeTrace", () => {
  it("proves a trial in order", () => {
    const judged = judgeTrace(soundTrace(), sketchBounds());
    expect(judged.verdict).toBe("proved");
    expect(judged.lines[0]?.claims.map(({ claim, reason }) => `${claim} ${reason}`)).toEqual([
      "reaction quick",
      "bus-lost fallbackHeld",
      "meter-lost fallbackHeld",
      "manager-lost fallbackHeld",
      "main-fuse awayFromEdge",
    ]);
    expect(judged.lines[0]?.longest).toMatchObject({ startS: 20, heldS: 8, peakA: 70, overAs: 80 });
    expect(judged.lines[0]?.recoveries).toMatchObject([{ after: { what: "load-on" }, sinceEventS: 8 }]);
  });

  it("proves no fuse through which more than its rating was fed back", () => {
    const back = (amps: number) => said("main-fuse", sketchTrace([[60, amps, 0]]));
    expect(back(-64)).toBe("cannot-tell fedBack");
    expect(back(-63)).toBe("proved withinRating");
  });

  it.each<[what: string, trace: Trace, says: string]>([
    ["surely within 15 s", overFor(140, 0.1), "proved quick"],
    ["within 15 s but for one value", overFor(150, 0.1), "proved withinLongest"],
    ["surely above 15 s", overFor(152, 0.1), "proved slow"],
    ["surely within 60 s", overFor(598, 0.1), "proved slow"],
    ["60 s to the value", overFor(600, 0.1), "cannot-tell tooCoarse"],
    ["surely above 60 s", overFor(602, 0.1), "failed tooSlow"],
    ["on the limit, not above", overFor(50, 1, 60), "cannot-tell neverOver"],
    ["just above the limit", overFor(5, 1, 60.01), "proved quick"],
    [
      "over from the start",
      sketchTrace([
        [5, 70, 32],
        [60, 50, 12],
      ]),
      "cannot-tell beganBefore",
    ],
    [
      "over at the end",
      sketchTrace([
        [5, 50, 32],
        [20, 70, 32],
      ]),
      "cannot-tell unfinished",
    ],
    [
      "over at the end for too long",
      sketchTrace([
        [5, 50, 32],
        [70, 70, 32],
      ]),
      "failed tooSlow",
    ],
    [
      "the building alone",
      sketchTrace([
        [5, 50, 32],
        [70, 65, 0],
        [30, 50],
      ]),
      "failed tooSlowWithoutCar",
    ],
    [
      "hunting",
      sketchTrace([
        [9, 50, 32],
        ...Array.from({ length: 8 }, (): Stretch[] => [
          [8, 70, 32],
          [5, 50, 12],
        ]).flat(),
        [30, 50],
      ]),
      "failed hunts",
    ],
  ])("reaction, %s: %s", (_what, trace, says) => expect(said("reaction", trace)).toBe(says));

  it("lets 10 s values prove neither 5 s nor 15 s, but 60 s", () => {
    const trace = overFor(1, 10);
    expect(said("reaction", trace, { typicalS: 5, longestS: 5 })).toContain("cannot-tell tooCoarse");
    expect(said("reaction", trace)).toBe("proved withinLongest");
  });

  it("says where nothing was recorded for longer than the longest time", () => {
    const holed = (gapS: number): Trace => {
      const trace = soundTrace();
      return { ...trace, timesS: trace.timesS.map((timeS) => (timeS > 240 ? timeS + gapS - 1 : timeS)) };
    };
    expect(said("trace", holed(60))).toBe("");
    expect(said("trace", holed(61))).toBe("cannot-tell unseen");
  });

  it.each<[what: string, changes: Partial<TraceBounds>, id: ClaimId, says: string]>([
    ["limit unknown", { limitA: null }, "reaction", "cannot-tell limitNotKnown"],
    ["limit unknown", { limitA: null }, "bus-lost", "cannot-tell limitNotKnown"],
    ["limit not as set", { isLimitSet: false }, "trace", "cannot-tell limitNotSet"],
    ["no figures", { typicalS: null }, "reaction", "cannot-tell figuresNotKnown"],
    ["no fallback", { fallbackA: null }, "bus-lost", "cannot-tell fallbackNotSet"],
    ["no time-out", { timeOutS: null }, "bus-lost", "cannot-tell noTimeOut"],
    [
      "no time-out and no figure",
      { timeOutS: null, longestS: null },
      "bus-lost",
      "cannot-tell figuresNotKnown",
    ],
    ["no car on the line", { pointCount: { L1: 0 } }, "bus-lost", "not-applicable noCarHere"],
    ["fallback just too low", { fallbackA: 5.39 }, "bus-lost", "failed fallbackNever"],
    ["fallback just enough", { fallbackA: 5.4 }, "bus-lost", "proved fallbackHeld"],
    ["two charge points", { fallbackA: 3, pointCount: { L1: 2 } }, "bus-lost", "proved fallbackHeld"],
    ["time-out just met", { timeOutS: 5 }, "bus-lost", "proved fallbackHeld"],
    ["time-out missed by less than a value", { timeOutS: 4.5 }, "bus-lost", "cannot-tell fallbackTooCoarse"],
    ["time-out missed", { timeOutS: 3.9 }, "bus-lost", "failed fallbackLate"],
    ["fuse unknown", { fuseRatingA: null, fuseBand: null }, "main-fuse", "cannot-tell fuseNotKnown"],
    ["no band", { fuseBand: null }, "main-fuse", "cannot-tell noBand"],
    ["no band, within the rating", { fuseBand: null, fuseRatingA: 70 }, "main-fuse", "proved withinRating"],
  ])("%s: %s %s", (_what, changes, id, says) => expect(said(id, soundTrace(), changes)).toBe(says));

  it("asks for losses that were not tried, and for a car that draws", () => {
    expect(said("meter-lost", overFor(5))).toBe("cannot-tell notTried");
    const idle = { ...soundTrace(), carA: { L1: soundTrace().timesS.map(() => 0) } };
    expect(said("bus-lost", idle)).toBe("cannot-tell notDrawing");
    expect(said("bus-lost", { ...soundTrace(), carA: null })).toBe("cannot-tell carNotRecorded");
  });

  it("judges the main fuse by the fast edge of its band: 160 A for 10 s", () => {
    expect(said("main-fuse", overFor(85, 0.1, 160))).toBe("proved awayFromEdge");
    expect(said("main-fuse", overFor(100, 0.1, 160))).toBe("cannot-tell edgePerhaps");
    expect(said("main-fuse", overFor(102, 0.1, 160))).toBe("failed edgeReached");
  });
  it("adds what excursions close together used up of it", () => {
    const twice = sketchTrace(
      [
        [100, 50],
        [60, 160],
        [20, 50],
        [60, 160],
        [100, 50],
      ],
      [],
      0.1,
    );
    expect(said("main-fuse", twice)).toBe("failed edgeReached");
    const apart = sketchTrace(
      [
        [100, 50],
        [60, 160],
        [200, 50],
        [60, 160],
        [100, 50],
      ],
      [],
      0.1,
    );
    expect(said("main-fuse", apart)).toBe("proved awayFromEdge");
  });
  it("judges it without a limit as well", () => {
    expect(said("main-fuse", overFor(102, 0.1, 160), { limitA: null })).toBe("failed edgeReached");
  });

  it("judges lines apart, and names those not recorded and those that are not there", () => {
    const trace = soundTrace();
    const judged = judgeTrace(
      { ...trace, supplyA: { ...trace.supplyA, L3: trace.timesS } },
      sketchBounds({ lines: ["L1", "L2"] }),
    );
    expect(judged.lines.map(({ line, verdict }) => `${line} ${verdict}`)).toEqual([
      "L1 proved",
      "L2 cannot-tell",
    ]);
    expect(judged.strayLines).toEqual(["L3"]);
    expect(judged.verdict).toBe("cannot-tell");
  });

  it.each<[what: string, change: (trace: Trace) => Partial<Trace>]>([
    ["no times", () => ({ timesS: new Float64Array(0) })],
    ["times that fall", ({ timesS }) => ({ timesS: timesS.slice().reverse() })],
    ["times that are no number", ({ timesS }) => ({ timesS: timesS.map(() => Number.NaN) })],
    ["too few values", () => ({ supplyA: { L1: new Float64Array(3) } })],
    ["an infinite current", ({ timesS }) => ({ carA: { L1: timesS.map(() => Number.POSITIVE_INFINITY) } })],
    ["events out of order", ({ events }) => ({ events: [...events].reverse() })],
  ])("refuses %s", (_what, change) => {
    const trace = soundTrace();
    expect(() => judgeTrace({ ...trace, ...change(trace) }, sketchBounds())).toThrow(EngineError);
  });
});

const current = fc.oneof(fc.integer({ min: 0, max: 200 }), fc.constantFrom(60, 61, 6, 32, 78, 79));
const traces = fc
  .record({
    stretches: fc.array(fc.tuple(fc.integer({ min: 1, max: 40 }), current, current), {
      minLength: 1,
      maxLength: 12,
    }),
    events: fc.array(
      fc.record({ atS: fc.integer({ min: 0, max: 300 }), what: fc.constantFrom(...TRACE_EVENTS) }),
      {
        maxLength: 6,
      },
    ),
  })
  .map(({ stretches, events }) =>
    sketchTrace(
      stretches,
      [...events].sort((a: TraceEvent, b: TraceEvent) => a.atS - b.atS),
    ),
  );

/** What was measured and decided, times from the start of the trace. */
const outline = (judged: JudgedTrace, { shiftS = 0, scale = 1 } = {}) =>
  judged.lines.map(({ verdict, claims, excursions, recoveries, fallbacks, fuse }) => ({
    verdict,
    claims: claims.map(({ claim, verdict, reason }) => [claim, verdict, reason]),
    excursions: excursions.map(({ startS, backS, heldS, lengthS, peakA, overAs, rmsA }) => [
      startS - shiftS,
      backS - shiftS,
      heldS,
      lengthS,
      ...[peakA, overAs, rmsA].map((value) => Number((value / scale).toPrecision(9))),
    ]),
    recoveries: recoveries.map(({ startS, lengthS, sinceEventS }) => [startS - shiftS, lengthS, sinceEventS]),
    fallbacks: fallbacks.map(({ what, atS, fellS, outcome }) => [what, atS - shiftS, fellS, outcome]),
    fuse: fuse?.share.map((value) => Number(value.toPrecision(9))),
  }));

describe("judgeTrace, for any trace", () => {
  it("is the same however the clock is set", () => {
    fc.assert(
      fc.property(traces, fc.integer({ min: -100_000, max: 100_000 }), (trace, shiftS) => {
        const shifted = {
          ...trace,
          timesS: trace.timesS.map((timeS) => timeS + shiftS),
          events: trace.events.map((event) => ({ ...event, atS: event.atS + shiftS })),
        };
        expect(outline(judgeTrace(shifted, sketchBounds()), { shiftS })).toEqual(
          outline(judgeTrace(trace, sketchBounds())),
        );
      }),
    );
  });

  it("is the same when currents, limit, fallback and fuse are scaled alike", () => {
    fc.assert(
      fc.property(traces, fc.constantFrom(0.25, 0.5, 2, 4), (trace, scale) => {
        const times = (values: Float64Array | undefined) =>
          (values as Float64Array).map((value) => value * scale);
        const plain = sketchBounds();
        const edge = (gates: NonNullable<TraceBounds["fuseBand"]>["fast"]) =>
          gates.map(([currentA, timeS]) => [currentA * scale, timeS] as const);
        const bounds = sketchBounds({
          limitA: 60 * scale,
          fallbackA: 6 * scale,
          fuseRatingA: 63 * scale,
          fuseBand: plain.fuseBand && { fast: edge(plain.fuseBand.fast), slow: edge(plain.fuseBand.slow) },
        });
        const scaled = {
          ...trace,
          supplyA: { L1: times(trace.supplyA.L1) },
          carA: { L1: times(trace.carA?.L1) },
        };
        expect(outline(judgeTrace(scaled, bounds), { scale })).toEqual(outline(judgeTrace(trace, plain)));
      }),
    );
  });

  it("measures the same when every value is split in two, and only a doubt may become a verdict", () => {
    const split = (values: Float64Array) =>
      Float64Array.from({ length: 2 * values.length - 1 }, (_, i) => values[i >> 1] as number);
    fc.assert(
      fc.property(traces, (trace) => {
        const halved = {
          ...trace,
          timesS: Float64Array.from({ length: 2 * trace.timesS.length - 1 }, (_, i) => i / 2),
          supplyA: { L1: split(trace.supplyA.L1 as Float64Array) },
          carA: { L1: split(trace.carA?.L1 as Float64Array) },
        };
        const [before] = judgeTrace(trace, sketchBounds()).lines;
        const [after] = judgeTrace(halved, sketchBounds()).lines;
        const measured = (line: typeof before) =>
          line?.excursions.map(({ startS, backS, heldS, peakA, overAs, rmsA }) => [
            startS,
            backS,
            heldS,
            peakA,
            overAs,
            Number(rmsA.toPrecision(9)),
          ]);
        expect(measured(after)).toEqual(measured(before));
        before?.excursions.forEach(({ lengthS }, i) => {
          const narrower = after?.excursions[i]?.lengthS as readonly [number, number];
          expect(narrower[0]).toBeGreaterThanOrEqual(lengthS[0]);
          expect(narrower[1]).toBeLessThanOrEqual(lengthS[1]);
        });
        const settled: readonly TraceVerdict[] = ["proved", "failed"];
        before?.claims.forEach(({ verdict }, i) => {
          if (settled.includes(verdict)) expect(after?.claims[i]?.verdict).toBe(verdict);
        });
      }),
    );
  });
});
