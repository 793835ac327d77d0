import { describe, expect, it } from "vitest";
import type { IntervalSeries } from "../demand/index.ts";
import { type Job, known, NOT_RECORDED } from "../job/index.ts";
import { assessedExample } from "../testing/examples.ts";
import { setAt } from "../testing/set-at.ts";
import { soundJob } from "../testing/sound-job.ts";
import { studied } from "../testing/studied.ts";
import { readyBuilding, recordedSource } from "./site-building.ts";

const hourly = (firstA: number): IntervalSeries => ({
  intervalS: 3600,
  currentA: Float64Array.from({ length: 48 }, () => firstA),
});
const recorded = (job: Job, lacks: readonly string[]) =>
  recordedSource(
    { days: 2, intervalS: 3600, intervalsPerDay: 24, from: "2026-01-05", lacks, fill: () => {} },
    studied(job),
    1,
  );
const unrecorded: Job = { ...soundJob(), demand: { recordings: [] } };

describe("recordedSource", () => {
  it("tells the loads that are lacking from those that are taken to be contained", () => {
    expect(recorded(soundJob(), [])).toMatchObject({ contains: ["House"], lacks: [], generators: [] });
    // A heat pump is not drawn: nothing stands in for it.
    expect(recorded(soundJob(), ["house"])).toMatchObject({ contains: [], lacks: ["House"] });
  });
  it("names what generates behind the supply", () => {
    const { study } = assessedExample("village-hall");
    const source = recordedSource(
      { days: 2, intervalS: 300, intervalsPerDay: 288, from: "2026-01-05", lacks: [], fill: () => {} },
      study,
      1,
    );
    expect(source.generators).toHaveLength(1);
  });
});

describe("readyBuilding", () => {
  const because = (job: Job, series?: ReadonlyMap<string, IntervalSeries>) => {
    const ready = readyBuilding(studied(job, series), 1);
    return ready.ok ? null : ready.because;
  };
  it("is the recording of the job", () => {
    const recordings = soundJob().demand.recordings.map((recording) => recording.id);
    const series = new Map(recordings.map((id) => [id, hourly(7)]));
    const ready = readyBuilding(studied(soundJob(), series), 1);
    expect(ready.ok && ready.value.kind).toBe("recorded");
  });
  it("is drawn for a dwelling that nobody recorded", () => {
    const ready = readyBuilding(studied(setAt(unrecorded, "site.premises", known("dwelling"))), 1);
    expect(ready.ok && ready.value.kind).toBe("drawn");
  });
  it.each([
    ["site.premises", NOT_RECORDED, "site.premises, the kind of premises, which is not recorded"],
    [
      "site.premises",
      known("shop-or-office"),
      "only a dwelling can be drawn instead; site.premises is shop-or-office",
    ],
  ])("says why none is drawn: %s", (path, value, words) =>
    expect(because(setAt(unrecorded, path, value))).toContain(words),
  );
  it("says that only one line can be drawn", () => {
    const { study } = assessedExample("village-hall");
    const ready = readyBuilding({ ...study, job: { ...study.job, demand: { recordings: [] } } }, 1);
    expect(ready.ok ? null : ready.because).toContain(
      "no recording of L1, L2, L3 that could be read, and only a dwelling on one line",
    );
  });
  it("draws nothing in place of a recording that could not be read", () => {
    const study = studied(unrecorded);
    const unread = new Map([["log", "line 3: no number"]]);
    const ready = readyBuilding({ ...study, inputs: { ...study.inputs, unread } }, 1);
    expect(ready).toEqual({
      ok: false,
      because:
        'recording "log", line 3: no number. Correct it, or take it out of the job; nothing is drawn in its place.',
    });
  });
});
