import { describe, expect, it } from "vitest";
import { known } from "../job/index.ts";
import { setAt } from "../testing/set-at.ts";
import { soundJob } from "../testing/sound-job.ts";
import { studied } from "../testing/studied.ts";
import type { BuildingSource } from "./building-source.ts";
import { hiddenDemand, hidesPeaks } from "./hidden-demand.ts";

const halfHours = (...highest: readonly number[]): BuildingSource => ({
  kind: "recorded",
  days: highest.length,
  intervalS: 1800,
  intervalsPerDay: 48,
  from: "2026-01-05",
  lacks: [],
  fill: (day, intoA) => {
    intoA.fill(2);
    intoA[36] = highest[day] as number;
  },
});
const loadId = soundJob().nodes.find(({ kind }) => kind === "load")?.id as string;
const withLoad = (purpose: string) =>
  studied(
    setAt(setAt(soundJob(), `nodes[${loadId}].purpose`, purpose), `nodes[${loadId}].ratedA`, known(41)),
  );

describe("hiddenDemand", () => {
  it("is the band of the highest mean of the days that were run, by the ratios of half-hours", () => {
    const hidden = hiddenDemand(withLoad("lighting"), halfHours(10, 20, 30), 2);
    expect(hidden).toMatchObject({ intervalS: 1800, lines: [{ line: "L1", highestMeanA: 20 }] });
    // Ratios of 30 min in the table: 1.32 to 2.28; at most thirty minutes in one.
    expect(hidden?.lines[0]?.peak).toMatchObject({
      seen: { lowA: expect.closeTo(26.4, 9), highA: expect.closeTo(45.6, 9) },
      certain: { lowA: 20, highA: 600 },
      withShortLoadA: null,
    });
  });
  it("has the line's shower on top, which the measured days lack", () =>
    expect(
      hiddenDemand(withLoad("instantaneous-water-heater"), halfHours(20), 1)?.lines[0]?.peak?.withShortLoadA,
    ).toBeCloseTo(86.6, 9));
  it("takes the larger of two showers, and each line's own highest mean", () => {
    const job = soundJob();
    const shower = (id: string, ratedA: number) => ({
      ...(job.nodes.find((node) => node.id === loadId) as (typeof job.nodes)[number]),
      id,
      purpose: "instantaneous-water-heater",
      ratedA: known(ratedA),
    });
    const study = withLoad("lighting");
    const ends = [shower("small", 30), shower("large", 41), shower("less", 20)];
    const tree = {
      serviceCable: study.tree.serviceCable,
      endsCarried: () => ends,
    } as unknown as typeof study.tree;
    const three: BuildingSource = {
      ...halfHours(1),
      fill: (_day, intoA) => {
        for (let at = 0; at < intoA.length; at++) intoA[at] = [10, -5, 30][at % 3] as number;
      },
    };
    const hidden = hiddenDemand({ ...study, tree, lines: ["L1", "L2", "L3"] }, three, 1);
    // L2 only sends out: no band can be given for it.
    expect(hidden?.lines.map(({ highestMeanA }) => highestMeanA)).toEqual([10, null, 30]);
    // 2.28 times the mean, and the larger shower in full.
    expect(hidden?.lines[0]?.peak?.withShortLoadA).toBeCloseTo(22.8 + 41, 9);
  });
  it("gives no band where nothing was recorded", () =>
    expect(
      hiddenDemand(
        withLoad("lighting"),
        { ...halfHours(1), fill: (_day, intoA) => void intoA.fill(Number.NaN) },
        1,
      )?.lines,
    ).toEqual([{ line: "L1", highestMeanA: null, peak: null }]));
  it.each([
    [60, false],
    [61, true],
  ])("intervals of %d s hide peaks: %s", (intervalS, isHidden) => {
    expect(hidesPeaks({ intervalS })).toBe(isHidden);
    const building = { ...halfHours(1), intervalS };
    expect(hiddenDemand(withLoad("lighting"), building, 1) !== null).toBe(isHidden);
  });
});
