import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { blankNode, blankOvercurrent } from "../job/blank.ts";
import { type Fact, type Job, known, NOT_RECORDED, notApplicable } from "../job/index.ts";
import { householdMinutes } from "../testing/household-minutes.ts";
import { figures, demand as tables } from "../testing/knowledge.ts";
import { knownValue, plain } from "../testing/plain.ts";
import { opened, sketchJob } from "../testing/sketch.ts";
import type { Purpose } from "./allowances.ts";
import { diversifiedDemand } from "./allowances.ts";
import { existingDemand, type SeriesByRecording } from "./existing-demand.ts";
import { averaged, countAbove, type IntervalSeries, summarise } from "./interval-series.ts";
import { lineDemand } from "./maximum-demand.ts";

type Premises = Extract<Job["site"]["premises"], { state: "known" }>["value"];
const NO_SERIES: SeriesByRecording = new Map();

/** A building on one line: loads by purpose and current, charge points by current. */
function building(
  loads: readonly (readonly [Purpose, number | null])[],
  options: {
    premises?: Premises | null;
    chargePoints?: readonly number[];
    recordings?: Job["demand"]["recordings"];
  } = {},
) {
  const ends = [
    ...loads.map(([purpose, amps], index) => {
      const ratedA: Fact<number> = amps === null ? NOT_RECORDED : known(amps);
      return blankNode("load", { id: `load-${index}`, label: `load ${index}`, purpose, ratedA });
    }),
    ...(options.chargePoints ?? []).map((amps, index) =>
      blankNode("charge-point", { id: `car-${index}`, label: `car ${index}`, ratedA: known(amps) }),
    ),
  ];
  const base = sketchJob(
    1,
    ends.map((end) => ["cut-out", end.kind, end.id] as const),
  );
  const nodes = [
    ...base.nodes.filter((node) => node.kind === "origin"),
    blankNode("cut-out", { id: "cut-out", label: "c", overcurrent: blankOvercurrent() }),
    ...ends,
  ];
  const premises: Job["site"]["premises"] =
    options.premises === null ? NOT_RECORDED : known(options.premises ?? "dwelling");
  return opened({
    ...base,
    nodes,
    site: { ...base.site, premises },
    demand: { recordings: options.recordings ?? [] },
  });
}

const diversified = (
  loads: readonly (readonly [Purpose, number | null])[],
  premises: Premises | null = "dwelling",
) => {
  const { tree, job } = building(loads, { premises });
  return diversifiedDemand(
    tree.endsCarried(tree.serviceCable, "L1"),
    job.site.premises,
    tables.allowances,
    figures,
  );
};

describe("diversity by circuit list, dwellings", () => {
  it.each<[what: string, loads: [Purpose, number][], amps: number]>([
    ["cooker 66 A, no socket: 26.8 A (electriciansforums.net thread 28769)", [["cooker", 66]], 26.8],
    ["cooker 30 A, no socket: 16 A (diynot.com thread 625391)", [["cooker", 30]], 16],
    [
      "cooker 45 A with socket: 25.5 A (Guidance Note 1 table H2 as quoted)",
      [["cooker-with-socket", 45]],
      25.5,
    ],
    [
      "12 kW cooker at 230 V with socket: 27.65 A (Basic Electrical Installation Work, p. 309)",
      [["cooker-with-socket", 12_000 / 230]],
      27.652,
    ],
    ["lighting 10 A: 6.6 A", [["lighting", 10]], 6.6],
    [
      "two 32 A rings and a 20 A radial: 52.8 A",
      [
        ["standard-circuit", 32],
        ["standard-circuit", 20],
        ["standard-circuit", 32],
      ],
      52.8,
    ],
    [
      "showers 40, 40 and 30 A: 87.5 A",
      [
        ["instantaneous-water-heater", 30],
        ["instantaneous-water-heater", 40],
        ["instantaneous-water-heater", 40],
      ],
      87.5,
    ],
    ["heating and power 10 A: 10 A", [["heating-and-power", 10]], 10],
    [
      "heating and power 16 + 14 A, on the total: 20 A",
      [
        ["heating-and-power", 16],
        ["heating-and-power", 14],
      ],
      20,
    ],
    ["a heat pump counts in full", [["heat-pump", 19]], 19],
  ])("%s", (_what, loads, amps) => expect(knownValue(diversified(loads))).toBeCloseTo(amps, 3));

  it("the wrong way, diversity on top of diversity, is not what comes out", () => {
    // A forum poster took 26.8 + 0.4 · (30 + 4.16 + 4.16 + 30 + 30) = 66.1 A; each circuit here counts by its own purpose.
    const loads: [Purpose, number][] = [
      ["cooker", 66],
      ["standard-circuit", 30],
      ["lighting", 8.32],
      ["standard-circuit", 30],
      ["instantaneous-water-heater", 30],
    ];
    expect(knownValue(diversified(loads))).toBeCloseTo(26.8 + (30 + 0.4 * 30) + 0.66 * 8.32 + 30, 9);
  });
});

describe("diversity by circuit list, elsewhere", () => {
  it.each<[Premises, [Purpose, number][], number]>([
    ["shop-or-office", [["lighting", 10]], 9],
    [
      "shop-or-office",
      [
        ["cooker", 30],
        ["cooker", 20],
        ["cooker", 10],
      ],
      30 + 16 + 6,
    ],
    [
      "shop-or-office",
      [
        ["standard-circuit", 32],
        ["standard-circuit", 32],
      ],
      48,
    ],
    [
      "shop-or-office",
      [
        ["heating-and-power", 20],
        ["heating-and-power", 12],
      ],
      29,
    ],
    ["guest-house", [["lighting", 10]], 7.5],
    [
      "guest-house",
      [
        ["heating-and-power", 20],
        ["heating-and-power", 10],
        ["heating-and-power", 10],
      ],
      20 + 8 + 6,
    ],
    [
      "guest-house",
      [
        ["motor", 10],
        ["motor", 6],
      ],
      13,
    ],
    [
      "guest-house",
      [
        ["other-socket-or-fixed", 20],
        ["other-socket-or-fixed", 16],
        ["other-socket-or-fixed", 10],
      ],
      20 + 12 + 4,
    ],
    [
      "other",
      [
        ["lighting", 10],
        ["cooker", 32],
        ["standard-circuit", 32],
      ],
      74,
    ],
  ])("%s: %o is %d A", (premises, loads, amps) =>
    expect(knownValue(diversified(loads, premises))).toBeCloseTo(amps, 9),
  );

  it("asks for the kind of premises, and for a load's current", () => {
    expect(diversified([["lighting", 5]], null)).toMatchObject({
      kind: "unknown",
      missing: [{ path: "site.premises" }],
    });
    expect(diversified([["lighting", null]])).toMatchObject({
      kind: "unknown",
      missing: [{ path: "nodes[load-0].ratedA" }],
    });
  });
  it("never exceeds what is connected, by more than a cooker's socket", () => {
    const purpose = fc.constantFrom<Purpose>(
      "lighting",
      "heating-and-power",
      "cooker",
      "cooker-with-socket",
      "motor",
      "instantaneous-water-heater",
      "standard-circuit",
      "other-socket-or-fixed",
      "heat-pump",
    );
    const loads = fc.array(fc.tuple(purpose, fc.double({ min: 0, max: 60, noNaN: true })), { maxLength: 12 });
    fc.assert(
      fc.property(
        loads,
        fc.constantFrom<Premises>("dwelling", "shop-or-office", "guest-house", "other"),
        (list, premises) => {
          const sockets = list.filter(([kind]) => kind === "cooker-with-socket").length;
          const connected = list.reduce((sum, [, amps]) => sum + amps, 0);
          expect(knownValue(diversified(list, premises))).toBeLessThanOrEqual(connected + 5 * sockets + 1e-9);
        },
      ),
      { numRuns: 100 },
    );
  });
});

const recorded = (maximumA: number, averagingMin: number, days: number, more: object = {}) =>
  ({
    kind: "recorded-maximum",
    id: "log",
    line: "L1",
    maximumA: known(maximumA),
    averagingMin: known(averagingMin),
    days: known(days),
    doesNotInclude: [],
    ...more,
  }) as Job["demand"]["recordings"][number];

describe("existingDemand", () => {
  const existing = (
    recordings: Job["demand"]["recordings"],
    loads: [Purpose, number][] = [
      ["lighting", 10],
      ["cooker", 30],
    ],
    series = NO_SERIES,
  ) => {
    const { tree, job } = building(loads, { recordings });
    return existingDemand("L1", {
      tree,
      premises: job.site.premises,
      recordings: job.demand.recordings,
      series,
      tables,
      figures,
    });
  };
  it("without a recording it takes the list: at least the largest load, at most the sum after diversity", () => {
    const { used, because } = existing([]);
    expect(because).toBe("no-recording");
    expect([knownValue(used.low), knownValue(used.high)]).toEqual([30, expect.closeTo(6.6 + 16, 9)]);
  });
  it("a half-hour mean is a band, never one number", () => {
    const { used, because, others } = existing([recorded(20, 30, 60)]);
    expect(because).toBe("longest-recording");
    expect([knownValue(used.low), knownValue(used.high)]).toEqual([
      expect.closeTo(26.4, 9),
      expect.closeTo(45.6, 9),
    ]);
    expect(others.map((item) => item.kind)).toEqual(["circuit-list"]);
  });
  it("a mean over a time between two in the table takes the longer one's band; over an hour there is none", () => {
    expect(knownValue(existing([recorded(20, 20, 60)]).used.high)).toBeCloseTo(20 * 2.28, 9);
    expect(existing([recorded(20, 120, 60)])).toMatchObject({
      because: "recordings-too-short",
      used: { kind: "circuit-list" },
    });
  });
  it("a recording of less than two weeks gives way to the list, but is kept", () => {
    const result = existing([recorded(20, 1, 13.9)]);
    expect(result).toMatchObject({
      because: "recordings-too-short",
      used: { kind: "circuit-list" },
      others: [{ id: "log" }],
    });
    expect(existing([recorded(20, 1, 14)])).toMatchObject({ used: { kind: "recorded-maximum" } });
  });
  it("of two recordings the longer is used", () => {
    expect(existing([recorded(20, 1, 20), recorded(25, 1, 60, { id: "longer" })]).used.id).toBe("longer");
  });
  it("a shorter recording that reached just as high raises nothing", () =>
    expect(existing([recorded(20, 1, 60), recorded(20, 1, 10, { id: "winter" })]).raisedBy).toEqual([]));
  it("a shorter recording that reached higher raises both ends", () => {
    const { used, raisedBy } = existing([
      recorded(20, 1, 60),
      recorded(50, 1, 10, { id: "winter" }),
      recorded(5, 1, 3, { id: "holiday" }),
    ]);
    expect(used.id).toBe("log");
    expect(raisedBy).toEqual(["winter"]);
    expect([knownValue(used.low), knownValue(used.high)]).toEqual([50, 50]);
  });
  it("a shorter one within the band moves the low end only", () => {
    const { used } = existing([recorded(20, 30, 60), recorded(40, 1, 10, { id: "winter" })]);
    expect([knownValue(used.low), knownValue(used.high)]).toEqual([40, expect.closeTo(45.6, 9)]);
  });
  it("a recording too short for itself still says what the building draws at least", () => {
    const short = recorded(70, 1, 3);
    const { used } = existing([short]);
    expect(used.kind).toBe("circuit-list");
    expect([knownValue(used.low), knownValue(used.high)]).toEqual([70, 70]);
    const { used: unlisted } = existing([short], []);
    expect(knownValue(unlisted.low)).toBe(70);
    expect(unlisted.high.kind).toBe("unknown");
  });
  describe("storage", () => {
    const stored = (importA: Fact<number>, doesNotInclude: string[] = []) => {
      const { document } = building([["lighting", 10]]);
      const storage = blankNode("storage", { id: "battery", label: "Battery", importA });
      const join = {
        id: "to-battery",
        from: "cut-out",
        to: "battery",
        lines: ["L1" as const],
        run: "busbar" as const,
      };
      const { tree, job } = opened({
        ...document,
        demand: { recordings: [recorded(25, 1, 60, { doesNotInclude })] },
        nodes: [...document.nodes, storage],
        cables: [...document.cables, join],
      });
      return existingDemand("L1", {
        tree,
        premises: job.site.premises,
        recordings: job.demand.recordings,
        series: NO_SERIES,
        tables,
        figures,
      }).used;
    };
    it("that the recording lacks is added in full", () => {
      const { low, high } = stored(known(16), ["battery"]);
      expect([knownValue(low), knownValue(high)]).toEqual([25, 41]);
    });
    it("that the recording stays below is counted on top", () => {
      const { low, high, cannotContain } = stored(known(60));
      expect([knownValue(low), knownValue(high)]).toEqual([60, 85]);
      expect(cannotContain.map(({ id }) => id)).toEqual(["battery"]);
    });
    it("that never charges from the supply adds nothing", () => {
      expect(knownValue(stored(notApplicable("charged by the roof alone")).high)).toBe(25);
    });
  });
  it("a load the recording lacks is added in full, and is the least there is", () => {
    const { used } = existing(
      [recorded(20, 1, 60, { doesNotInclude: ["load-0"] })],
      [["instantaneous-water-heater", 41.3]],
    );
    expect([knownValue(used.low), knownValue(used.high)]).toEqual([41.3, expect.closeTo(61.3, 9)]);
  });
  it("a water heater that the recording says it contains but stays below is counted on top", () => {
    const shower: [Purpose, number][] = [["instantaneous-water-heater", 41.3]];
    const { used } = existing([recorded(25, 1, 60)], shower);
    expect([knownValue(used.low), knownValue(used.high)]).toEqual([41.3, expect.closeTo(66.3, 9)]);
    expect(used.cannotContain.map(({ id }) => id)).toEqual(["load-0"]);
    // Nine tenths of 41.3 A is 37.17 A; a half-hour mean of 20 A may hide a peak of 45.6 A.
    for (const recording of [recorded(37.17, 1, 60), recorded(20, 30, 60)])
      expect(existing([recording], shower).used.cannotContain).toEqual([]);
    expect(existing([recorded(37.16, 1, 60)], shower).used.cannotContain).toHaveLength(1);
  });
  it("a circuit of sockets rated above what was recorded is no contradiction", () => {
    expect(existing([recorded(20, 1, 60)], [["standard-circuit", 32]]).used.cannotContain).toEqual([]);
  });
  it("a recording nobody could read is not used, and says which", () => {
    const file = {
      kind: "interval-series",
      id: "file",
      line: "L1",
      file: "gone.csv",
      columns: {},
      unit: "A",
      intervalS: 60,
      labels: "start",
      from: "2026-01-01",
      until: "2026-02-01",
      doesNotInclude: [],
    } as never;
    const result = existing([file]);
    expect(result).toMatchObject({
      used: { kind: "circuit-list" },
      others: [{ high: { kind: "unknown", missing: [{ path: "demand.recordings[file].file" }] } }],
    });
  });
});

describe("lineDemand", () => {
  const demandOf = (
    houseA: number,
    points: readonly number[],
    governs: readonly string[] | null,
    limitA = 58,
  ) => {
    const { tree, job } = building([["heat-pump", houseA]], { chargePoints: points });
    const existing = existingDemand("L1", {
      tree,
      premises: job.site.premises,
      recordings: [],
      series: NO_SERIES,
      tables,
      figures,
    });
    const line = lineDemand(tree, existing, governs && { governs, limit: plain("Ilim", limitA) });
    return {
      unmanaged: knownValue(line.unmanaged.high),
      managed: line.managed && knownValue(line.managed.high),
    };
  };
  it.each([
    ["everything fits: the limit is not reached", 20, [32], ["car-0"], { unmanaged: 52, managed: 52 }],
    ["the car gives way", 40, [32], ["car-0"], { unmanaged: 72, managed: 58 }],
    [
      "the building alone is over the limit: nothing helps",
      70,
      [32],
      ["car-0"],
      { unmanaged: 102, managed: 70 },
    ],
    [
      "a second point outside the manager's reach counts in full",
      20,
      [32, 32],
      ["car-0"],
      { unmanaged: 84, managed: 58 },
    ],
    ["and may be over the limit by itself", 40, [32, 32], ["car-0"], { unmanaged: 104, managed: 72 }],
    ["no manager", 40, [32], null, { unmanaged: 72, managed: null }],
  ] as const)("%s", (_what, houseA, points, governs, expected) =>
    expect(demandOf(houseA, points, governs)).toEqual(expected),
  );
});

describe("interval series", () => {
  const series = (values: readonly number[], intervalS = 60): IntervalSeries => ({
    intervalS,
    currentA: Float64Array.from(values),
  });
  it("an absent interval is neither zero nor counted", () => {
    const gap = series([10, Number.NaN, 30]);
    expect(summarise(gap)).toEqual({
      maximumA: 30,
      presentCount: 2,
      absentCount: 1,
      presentDays: 120 / 86_400,
    });
    expect(averaged(gap, 3).currentA[0]).toBe(20);
    expect(countAbove(gap, 9)).toBe(2);
    expect(summarise(series([Number.NaN]))).toBeNull();
  });
  it("a last incomplete block is left out", () =>
    expect(averaged(series([1, 3, 5]), 2).currentA).toEqual(Float64Array.from([2])));

  describe("the real house of [household-minute], 17 to 31 December 2006", () => {
    const house = householdMinutes();

    it("has 21 596 minutes, four absent, and 39.4 A at most", () => {
      expect(summarise(house)).toMatchObject({ maximumA: 39.4, presentCount: 21_596, absentCount: 4 });
    });
    it.each([
      [1, 39.4],
      [5, 37.48],
      [10, 35.04],
      [15, 33.19],
      [30, 29.27],
      [60, 23.36],
    ])(
      "its highest mean over %d min is %d A (worked out apart, from the same open data)",
      (minutes, maximumA) => {
        expect(Math.abs((summarise(averaged(house, minutes))?.maximumA ?? 0) - maximumA)).toBeLessThanOrEqual(
          0.005,
        );
      },
    );
    it("gives the peak ratios that the tables carry: rounded down at the low end, up at the high end", () => {
      for (const [minutes, low, high] of tables.peakRatios.rows) {
        const blocks = averaged(house, minutes);
        const ratios = Array.from({ length: 15 }, (_, day) => {
          const dayOf = (of: IntervalSeries, perDay: number) =>
            Math.max(
              ...of.currentA.slice(day * perDay, (day + 1) * perDay).filter((value) => !Number.isNaN(value)),
            );
          return dayOf(house, 1440) / dayOf(blocks, 1440 / minutes);
        });
        expect(Math.floor(Math.min(...ratios) * 100) / 100, `${minutes} min, low`).toBe(low);
        expect(Math.ceil(Math.max(...ratios) * 100 - 1e-9) / 100, `${minutes} min, high`).toBe(high);
      }
    });
  });
});
