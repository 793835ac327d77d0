import { describe, expect, it } from "vitest";
import { CLAIM_REASONS, type ClaimReason, judgeTrace } from "../proving/index.ts";
import { sketchBounds, sketchTrace, soundTrace } from "../testing/trace-sketch.ts";
import { claimSentence, traceView } from "./trace-view.ts";
import { CLAIM_SENTENCES } from "./trace-words.ts";

describe("traceView", () => {
  it("says what was proved, against what, and how", () => {
    const view = traceView(judgeTrace(soundTrace(), sketchBounds()), ["One row left out."]);
    expect(view).toMatchObject({ tone: "pass", remarks: ["One row left out."] });
    expect(view.lines[0]).toMatchObject({ line: "L1", word: "proved", extremes: [] });
    const plain = JSON.stringify(view).replaceAll("\u00a0", " ");
    for (const words of [
      "Limit 60 A per line. Fallback 6 A per charge point within 10 s. Main fuse 63 A.",
      "Back under within 9 s at the most; 15 s is typical of what operators expect.",
      "at 20 s for 8 s, peak 70.0 A, 80 A·s above",
      "load on at 20 s: back under after 7 s to 9 s, 8 s after it was noted",
      "bus lost at 80 s, 32.0 A drawn, at the fallback after 4 s to 5 s, fell and stayed",
    ])
      expect(plain).toContain(words);
  });
  it("warns of current below zero and of a line the supply does not have", () => {
    const trace = sketchTrace([[20, -5]]);
    const view = traceView(
      judgeTrace({ ...trace, supplyA: { ...trace.supplyA, L2: trace.timesS } }, sketchBounds()),
    );
    expect(view.remarks.map((remark) => remark.slice(0, 22))).toEqual([
      "L2 is in the trace, bu",
      "L1 is below zero 20 ti",
    ]);
    expect(view.tone).toBe("unknown");
  });
  it("counts what it does not show", () => {
    const trace = sketchTrace(Array.from({ length: 30 }, (_, i) => [20, i % 2 ? 70 : 50]));
    expect(traceView(judgeTrace(trace, sketchBounds())).lines[0]).toMatchObject({
      moreExcursions: 3,
      moreRecoveries: 3,
    });
  });
});

describe("claimSentence", () => {
  it("rounds a time no better than it was", () => {
    const claim = { claim: "reaction", verdict: "proved", reason: "quick" } as const;
    expect(claimSentence({ ...claim, data: { mostS: 14.991, typicalS: 15 } })).toContain("within 15\u00a0s");
  });
  it.each(CLAIM_REASONS)("of %s ends with a full stop and promises nothing", (reason: ClaimReason) => {
    expect(CLAIM_SENTENCES[reason]).toMatch(/\.$/);
    expect(CLAIM_SENTENCES[reason]).not.toMatch(/compli|conform/i);
  });
  it("leaves no place of any sentence unfilled", () => {
    const always = (data: Record<string, number>, names: readonly string[]) =>
      names.filter((name) => !(name in data));
    const traces = [
      soundTrace(),
      sketchTrace(
        [
          [20, 50, 32],
          [100, 160, 32],
          [20, 50, 12],
        ],
        [{ atS: 5, what: "bus-lost" }],
      ),
      sketchTrace(
        [
          [20, 50, 32],
          [5, 70, 32],
        ],
        [
          { atS: 2, what: "meter-lost" },
          { atS: 4, what: "restored" },
        ],
      ),
      sketchTrace(
        [
          [2, 70, 32],
          [9, 50, 0],
        ],
        [{ atS: 5, what: "bus-lost" }],
        10,
      ),
      sketchTrace(
        [
          [2, 50, 32],
          [5, 70, 32],
          [9, 50, 6],
        ],
        [{ atS: 0, what: "bus-lost" }],
        20,
      ),
      sketchTrace([
        [9, 50, 32],
        ...Array.from(
          { length: 9 },
          () =>
            [
              [8, 70, 0],
              [5, 50, 0],
            ] as const,
        ).flat(),
        [30, 50],
      ]),
      sketchTrace(
        [
          [9, 50, 32],
          [80, 50, 6],
          [9, 50, 32],
        ],
        [{ atS: 8, what: "manager-lost" }],
      ),
      sketchTrace(
        [
          [3, 50, 32],
          [3, 70, 32],
        ],
        [],
        70,
      ),
    ];
    const changes = [
      {},
      { timeOutS: null },
      { fuseBand: null },
      { isLimitSet: false },
      { limitA: null },
      { timeOutS: 3 },
    ];
    for (const trace of traces)
      for (const change of changes)
        for (const claim of judgeTrace(trace, sketchBounds(change)).lines[0]?.claims ?? []) {
          const named = [...CLAIM_SENTENCES[claim.reason].matchAll(/\{(\w+)\}/g)].map(
            ([, name = ""]) => name,
          );
          expect(always(claim.data, named), claim.reason).toEqual([]);
        }
  });
});
