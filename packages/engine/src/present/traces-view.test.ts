import { describe, expect, it } from "vitest";
import { blankManagedJob, known } from "../job/index.ts";
import { judgeTrace, type Trace } from "../proving/index.ts";
import { openJob } from "../supply/index.ts";
import { sketchBounds, sketchTrace, soundTrace } from "../testing/trace-sketch.ts";
import { excursionDrawing } from "./excursion-drawing.ts";
import { tracesView } from "./traces-view.ts";

function jobWith(limiter: object) {
  const job = blankManagedJob({ id: "site", title: "Site", jurisdiction: "england", phases: 1 });
  const open = openJob(JSON.stringify({ ...job, limiter: { ...job.limiter, ...limiter } }));
  if (!open.ok) throw new Error("not a job");
  return open.job;
}
const viewOf = (traces: readonly Trace[], limiter: object = {}) =>
  tracesView(
    traces.map((trace, index) => ({
      name: `trace ${index}`,
      trace,
      judged: judgeTrace(trace, sketchBounds()),
      remarks: [],
    })),
    jobWith(limiter),
    "Judged by 10 s.",
  );
const plain = (words: string | undefined): string => (words ?? "").replaceAll("\u00a0", " ");
const high = sketchTrace([
  [20, 50, 32],
  [12, 90, 32],
  [60, 50, 12],
]);

describe(tracesView, () => {
  it("names the fact, the value to enter, where it was seen, and what the job says", () => {
    const [response, bus] = viewOf([soundTrace()], { responseS: known(5) }).settles;
    expect(response?.path).toBe("limiter.responseS");
    expect(plain(response?.sentence)).toBe(
      "Enter responseS = 9.0 s, measured: the slowest, on L1 at 20 s. The job has 5.0 s; keep the one that was measured after the last change.",
    );
    expect(plain(bus?.sentence)).toBe(
      "Enter offeredA = 6.0 A for the failure bus-lost, measured: the most one charge point drew, on L1 at 80 s.",
    );
  });
  it("says nothing against a job that has the value", () => {
    const [response] = viewOf([soundTrace()], { responseS: known(9) }).settles;
    expect(response?.sentence).not.toContain("The job has");
  });
  it("says of each claim which trace it is from", () => {
    const { lines, settles, tone } = viewOf([soundTrace(), high]);
    expect(lines[0]?.claims.map(({ from }) => from)).toEqual([
      "trace 1",
      "trace 0",
      "trace 0",
      "trace 0",
      "trace 1",
    ]);
    expect(settles[0]?.sentence).toContain("in trace 1");
    expect(tone).toBe("pass");
  });
  it("draws the excursion with the most above the limit, with as much before and after", () => {
    const { worst } = viewOf([soundTrace(), high]);
    expect(plain(worst?.title)).toBe("L1 over its limit of 60.0 A from 20.0 s to 32.0 s, peak 90.0 A");
    expect([worst?.points[0]?.atS, worst?.points.at(-1)?.atS]).toEqual([8, 44]);
    expect(Math.max(...(worst?.points ?? []).map(({ currentA }) => currentA))).toBe(90);
    expect(viewOf([sketchTrace([[60, 40, 0]])]).worst).toBeNull();
  });
  it("loses no peak where there are more values than room", () => {
    const long = sketchTrace([
      [5000, 50, 32],
      [4000, 61, 32],
      [1, 99, 32],
      [999, 61, 32],
      [5000, 50, 12],
    ]);
    const points = viewOf([long]).worst?.points ?? [];
    expect(points.length).toBeLessThanOrEqual(240);
    expect(points.map(({ currentA }) => currentA)).toContain(99);
  });
});

describe(excursionDrawing, () => {
  const drawn = {
    title: "L1 <over>",
    limitA: 60,
    points: [
      { atS: 0, currentA: 50 },
      { atS: 1, currentA: 90 },
      { atS: 3, currentA: 55 },
    ],
  };
  it("holds each value until the next, and draws the limit", () => {
    const svg = excursionDrawing(drawn);
    const [, path = ""] = /<path d="(M[^"]+)" fill="none" stroke="currentColor" stroke-width/.exec(svg) ?? [];
    // 330 units of width for 3 s from 44; 114 of height for 99 A from 128.
    expect(path).toBe("M44.00 70.42H154.00V24.36H374.00V64.67");
    expect(svg).toContain("M44 58.91H374");
    expect(svg).toContain("<title>L1 &lt;over&gt;</title>");
  });
  it("has no number that is none, whatever the points", () => {
    for (const points of [[], [{ atS: 5, currentA: 0 }], [{ atS: 5, currentA: -3 }]])
      expect(excursionDrawing({ ...drawn, points })).not.toMatch(/NaN|Infinity/);
  });
});
