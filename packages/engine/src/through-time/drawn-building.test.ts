import { describe, expect, it } from "vitest";
import { type Job, known, NOT_RECORDED } from "../job/index.ts";
import { setAt } from "../testing/set-at.ts";
import { soundJob } from "../testing/sound-job.ts";
import { studied } from "../testing/studied.ts";
import type { BuildingSource } from "./building-source.ts";
import { drawnDwelling, withLacking } from "./drawn-building.ts";

const loadId = soundJob().nodes.find(({ kind }) => kind === "load")?.id as string;
const withLoad = (purpose: string, ratedA: number): Job =>
  setAt(setAt(soundJob(), `nodes[${loadId}].purpose`, purpose), `nodes[${loadId}].ratedA`, known(ratedA));
const mostOver = (building: BuildingSource, days: number): number => {
  const dayA = new Float64Array(building.intervalsPerDay);
  let most = 0;
  for (let day = 0; day < days; day++) {
    building.fill(day, dayA);
    most = Math.max(most, ...dayA);
  }
  return most;
};

describe("drawnDwelling", () => {
  it("is the same for the same seed, another for another", () => {
    const of = (seed: number) => mostOver(drawnDwelling(studied(soundJob()), seed) as BuildingSource, 10);
    expect(of(4)).toBe(of(4));
    expect(of(4)).not.toBe(of(5));
  });
  it("has the shower that the tree has, and none where the tree has none", () => {
    // 9 kW at 230 V are 39 A; nothing else that is drawn reaches 30 A in a minute by itself or is likely to meet.
    const shower = drawnDwelling(studied(withLoad("instantaneous-water-heater", 40)), 4) as BuildingSource;
    const none = drawnDwelling(studied(withLoad("lighting", 4)), 4) as BuildingSource;
    expect(mostOver(shower, 30)).toBeGreaterThan(39);
    expect(mostOver(none, 30)).toBeLessThan(39);
  });
  it("has the heat pump that the tree has, and a cooker with a socket draws what a cooker does", () => {
    const dayOf = (purpose: string) => {
      const dayA = new Float64Array(1440);
      drawnDwelling(studied(withLoad(purpose, 30)), 4)?.fill(0, dayA);
      return dayA;
    };
    const sum = (dayA: Float64Array) => dayA.reduce((total, currentA) => total + currentA, 0);
    // On 1 January, when every heat pump runs.
    expect(sum(dayOf("heat-pump"))).toBeGreaterThan(sum(dayOf("lighting")));
    expect(dayOf("cooker-with-socket")).toEqual(dayOf("cooker"));
  });
  it("draws no shop, and nothing on three lines", () => {
    expect(drawnDwelling(studied(setAt(soundJob(), "site.premises", known("shop-or-office"))), 1)).toBeNull();
    expect(drawnDwelling({ ...studied(soundJob()), lines: ["L1", "L2", "L3"] }, 1)).toBeNull();
  });
});

describe("withLacking", () => {
  const flat = (intervalsPerDay: number): BuildingSource => ({
    kind: "recorded",
    days: 30,
    intervalS: 86_400 / intervalsPerDay,
    intervalsPerDay,
    from: "2026-01-05",
    lacks: [],
    fill: (_day, intoA) => void intoA.fill(5),
  });
  const study = studied(withLoad("instantaneous-water-heater", 45));
  const lacking = study.tree.ofKind("load").filter(({ id }) => id === loadId);
  const { label } = lacking[0] as (typeof lacking)[number];
  it("adds a shower at its own current to the minutes it runs in, and says so", () => {
    const added = withLacking({ ...flat(1440), lacks: [label] }, lacking, study, 3);
    expect(added).toMatchObject({ adds: [label], lacks: [] });
    // 5 A and the recorded 45 A; a use that begins within a minute reaches less in that one.
    expect(mostOver(added, 30)).toBeCloseTo(50, 6);
  });
  it("adds it to each of its lines: its own current where that is known, a share of the published power where not", () => {
    const on = (job: Job): number => {
      const of = studied(job);
      const tree = Object.assign(Object.create(of.tree), { linesAt: () => ["L1", "L2", "L3"] });
      const three: BuildingSource = { ...flat(1440), fill: (_day, intoA) => void intoA.fill(0) };
      const loads = of.tree.ofKind("load").filter(({ id }) => id === loadId);
      const added = withLacking(three, loads, { ...of, tree, lines: ["L1", "L2", "L3"] }, 3);
      const dayA = new Float64Array(3 * 1440);
      let most = 0;
      for (let day = 0; day < 30; day++) {
        added.fill(day, dayA);
        most = Math.max(most, ...dayA);
        for (let at = 0; at < dayA.length; at += 3) expect(dayA[at]).toBe(dayA[at + 2]);
      }
      return most;
    };
    expect(on(withLoad("instantaneous-water-heater", 20))).toBeCloseTo(20, 6);
    // 9 kW on three lines of 230 V.
    const unknown = setAt(
      withLoad("instantaneous-water-heater", 20),
      `nodes[${loadId}].ratedA`,
      NOT_RECORDED,
    );
    expect(on(unknown)).toBeCloseTo(9000 / 230 / 3, 6);
  });
  it("adds nothing while the load is off, and draws each of several by itself", () => {
    const cooking = studied(withLoad("cooker-with-socket", 30));
    const [cooker] = cooking.tree.ofKind("load").filter(({ id }) => id === loadId);
    const loads = [cooker, cooker] as [(typeof lacking)[number], (typeof lacking)[number]];
    const none: BuildingSource = { ...flat(1440), fill: (_day, intoA) => void intoA.fill(0) };
    const dayOf = (count: 1 | 2, day: number) => {
      const dayA = new Float64Array(1440);
      withLacking(none, loads.slice(0, count), cooking, 3).fill(day, dayA);
      return dayA;
    };
    const days = Array.from({ length: 20 }, (_, day) => [dayOf(1, day), dayOf(2, day)] as const);
    expect(Math.min(...days.flatMap(([one]) => [...one]))).toBe(0);
    const minutesOn = (dayA: Float64Array) => dayA.filter((currentA) => currentA > 0).length;
    const total = (which: 0 | 1) => days.reduce((sum, day) => sum + minutesOn(day[which]), 0);
    // Two that ran in step would be on in the same minutes as one.
    expect(total(1)).toBeGreaterThan(1.2 * total(0));
  });
  it("spreads it over longer intervals without adding energy", () => {
    const total = (building: BuildingSource) => {
      const dayA = new Float64Array(building.intervalsPerDay);
      let sum = 0;
      for (let day = 0; day < 20; day++) {
        building.fill(day, dayA);
        for (const current of dayA) sum += (current - 5) * building.intervalS;
      }
      return sum;
    };
    const [minutes, halfHours] = [1440, 48].map((count) =>
      total(withLacking(flat(count), lacking, study, 3)),
    );
    expect(minutes).toBeGreaterThan(0);
    expect(halfHours).toBeCloseTo(minutes as number, 3);
  });
  it("leaves alone what no published appliance stands for", () => {
    const lights = studied(withLoad("lighting", 4));
    const building = { ...flat(1440), lacks: [label] };
    expect(withLacking(building, lights.tree.ofKind("load"), lights, 3)).toBe(building);
  });
});
