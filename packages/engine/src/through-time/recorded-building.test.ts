import { describe, expect, it } from "vitest";
import type { IntervalSeries } from "../demand/index.ts";
import type { Job } from "../job/index.ts";
import { soundJob } from "../testing/sound-job.ts";
import { studied } from "../testing/studied.ts";
import { buildingOf, recordedBuilding } from "./recorded-building.ts";

const hours = (count: number, firstA = 0): IntervalSeries => ({
  intervalS: 3600,
  currentA: Float64Array.from({ length: count }, (_, hour) => firstA + hour),
});
const recording = (id: string, lacks: readonly string[] = []): Job["demand"]["recordings"][number] => ({
  kind: "interval-series",
  id,
  line: "L1",
  file: `${id}.csv`,
  columns: { delimiter: ",", date: "Date", dateOrder: "year-month-day", time: "Time", current: "I" },
  unit: "A",
  intervalS: 3600,
  labels: "start",
  from: "2026-01-05",
  until: "2026-01-06",
  doesNotInclude: [...lacks],
});
const withRecordings = (...recordings: Job["demand"]["recordings"]): Job => ({
  ...soundJob(),
  demand: { recordings },
});

describe("buildingOf", () => {
  it("gives day after day, and begins again after the last whole one", () => {
    const building = buildingOf([hours(60)]);
    expect(building).toMatchObject({ days: 2, intervalsPerDay: 24, intervalS: 3600 });
    const dayA = new Float64Array(24);
    building.fill(1, dayA);
    expect([dayA[0], dayA[23]]).toEqual([24, 47]);
    building.fill(2, dayA);
    expect(dayA[0]).toBe(0);
  });
  it("lays lines side by side", () => {
    const dayA = new Float64Array(48);
    buildingOf([hours(24), hours(24, 100)]).fill(0, dayA);
    expect([...dayA.subarray(0, 4)]).toEqual([0, 100, 1, 101]);
  });
  it("ends with the shortest of its lines", () => expect(buildingOf([hours(72), hours(49)]).days).toBe(2));
});

describe("recordedBuilding", () => {
  it("takes the longest recording of a line, and what it lacks", () => {
    const loadId = soundJob().nodes.find(({ kind }) => kind === "load")?.id as string;
    const job = withRecordings(recording("short"), recording("long", [loadId]));
    const series = new Map([
      ["short", hours(24)],
      ["long", hours(48)],
    ]);
    expect(recordedBuilding(studied(job, series))).toMatchObject({
      ok: true,
      building: { days: 2, from: "2026-01-05", lacks: [loadId] },
    });
  });
  it("names the lines that begin on another day, or have other intervals", () => {
    const of = (second: object, intervalS = 3600) => {
      const other = { ...recording("other"), line: "L2", ...second } as ReturnType<typeof recording>;
      const series = new Map([
        ["one", hours(24)],
        ["other", { ...hours(24), intervalS }],
      ]);
      const study = studied(withRecordings(recording("one")), series);
      const job = { ...study.job, demand: { recordings: [...study.job.demand.recordings, other] } };
      return recordedBuilding({ ...study, job, lines: ["L1", "L2"] } as unknown as typeof study);
    };
    expect(of({})).toMatchObject({ ok: true, building: { days: 1 } });
    expect(of({ from: "2026-01-06" })).toEqual({ ok: false, because: "differ", lines: ["L2"] });
    expect(of({}, 1800)).toEqual({ ok: false, because: "differ", lines: ["L2"] });
  });
  it("is none where the file holds no reading of the days that were named", () => {
    const absent: IntervalSeries = { intervalS: 3600, currentA: new Float64Array(48).fill(Number.NaN) };
    const empty = studied(withRecordings(recording("log")), new Map([["log", absent]]));
    expect(recordedBuilding(empty)).toEqual({ ok: false, because: "empty", lines: ["L1"] });
  });
  it("names the lines that nobody recorded", () => {
    const unread = studied(withRecordings(recording("log")));
    expect(recordedBuilding(unread)).toEqual({ ok: false, because: "no-recording", lines: ["L1"] });
  });
});
