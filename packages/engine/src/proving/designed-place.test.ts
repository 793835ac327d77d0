import { GREAT_BRITAIN } from "@underfuse/knowledge";
import { describe, expect, it } from "vitest";
import { blankMetering, blankTransformer } from "../job/blank.ts";
import type { Line } from "../quantities/index.ts";
import { opened, sketchJob } from "../testing/sketch.ts";
import { chainOfJob } from "./chain-of-job.ts";
import { designedPlaces, isDesignedWhole } from "./designed-place.ts";
import { diagnose } from "./diagnose.ts";
import { parseReadingsValue } from "./parse-readings.ts";
import { predictSteps } from "./predict-steps.ts";
import { proofOf } from "./proof.ts";

/** A house on its own board, a workshop and a car on another, both behind one block; solar beside the house. */
function site(cable: string, conductor: Line | "N" = "L1") {
  const job = sketchJob(1, [
    ["cut-out", "connector-block", "block"],
    ["block", "board", "house-board"],
    ["house-board", "load", "house"],
    ["house-board", "generator", "solar"],
    ["block", "board", "yard-board"],
    ["yard-board", "load", "workshop"],
    ["yard-board", "charge-point", "car"],
  ]);
  const transformer = blankTransformer({ id: "ct", cable, conductor, channel: "L1" });
  return opened({ ...job, metering: { ...blankMetering(), currentTransformers: [transformer] } });
}
const placeAt = (...where: Parameters<typeof site>) => {
  const { job, tree } = site(...where);
  const [place] = designedPlaces(job, tree, ["L1"]);
  if (place === undefined) throw new Error("one channel has one place");
  return place;
};
/** Upper ends of the bands of watts of one predicted step, and its lower end. */
const wattsOf = (cable: string, id: string) =>
  predictSteps(site(cable))?.find(({ step }) => step.id === id)?.channels[0]?.P ?? [Number.NaN, Number.NaN];

describe(designedPlaces, () => {
  it.each([
    ["to-block", "all", "all", "all", []],
    ["to-house-board", "part", "none", "all", ["workshop", "car"]],
    ["to-yard-board", "part", "all", "none", ["house", "solar"]],
    ["to-car", "none", "all", "none", ["house", "solar", "workshop"]],
    ["to-house", "part", "none", "none", ["solar", "workshop", "car"]],
  ])(
    "on %s it sees %s of the building, %s of the car, %s of the generation",
    (cable, building, car, generation, misses) => {
      expect(placeAt(cable)).toMatchObject({
        seesBuilding: building,
        seesChargePoint: car,
        seesGeneration: generation,
        misses,
      });
      expect(isDesignedWhole(placeAt(cable))).toBe(misses.length === 0);
    },
  );
  it("on a neutral it is never whole", () => {
    expect(placeAt("to-block", "N")).toMatchObject({ isOnNeutral: true, misses: [] });
    expect(isDesignedWhole(placeAt("to-block", "N"))).toBe(false);
  });
  it("a channel without a transformer sees nothing", () => {
    const { job, tree } = site("to-block");
    const without = { ...job, metering: job.metering && { ...job.metering, currentTransformers: [] } };
    expect(designedPlaces(without, tree, ["L1"])).toMatchObject([
      { transformer: null, seesBuilding: "none" },
    ]);
  });
});

describe("predictions where the design puts the transformer", () => {
  const CAR = "car 32 A on L1";
  const HEATER = "2500 W heater on L1";

  it("upstream of everything, all of it is shown", () => {
    expect(wattsOf("to-block", CAR)[0]).toBeGreaterThan(6000);
    expect(wattsOf("to-block", HEATER)[0]).toBeGreaterThan(2000);
  });
  it("beside the car, nothing of it is shown", () => {
    expect(wattsOf("to-house-board", CAR)).toEqual([0, 0]);
  });
  it("on the car's own cable, nothing of the building is shown", () => {
    expect(wattsOf("to-car", CAR)).toEqual(wattsOf("to-block", CAR));
    expect(wattsOf("to-car", HEATER)).toEqual([0, 0]);
  });
  it("of the building in part, anything from nothing to all of a heater is shown", () => {
    const [low, high] = wattsOf("to-yard-board", HEATER);
    expect(low).toBe(0);
    expect(high).toBe(wattsOf("to-block", HEATER)[1]);
  });
});

describe("a proof where the design itself misses something", () => {
  const steps = [
    { id: "idle", meter: { L1: { volts: 240, amps: 4.2, watts: 1000, vars: 50 } } },
    {
      id: "car",
      chargePoint: { offeredA: 16, lines: ["L1"], drawnA: { L1: 15.6 } },
      meter: { L1: { volts: 239, amps: 19.7, watts: 4700, vars: 60 } },
    },
    {
      id: "heater",
      loads: [{ line: "L1", watts: 2000 }],
      meter: { L1: { volts: 239.5, amps: 12.5, watts: 2990, vars: 50 } },
    },
  ];
  const proved = (cable: string) => {
    const read = parseReadingsValue({ format: "underfuse-readings", formatVersion: 1, steps });
    const result = read.ok ? diagnose(site(cable), read.readings, GREAT_BRITAIN.faults) : null;
    if (!result?.ok) throw new Error("the readings can be weighed");
    return proofOf(result.diagnosis).properties;
  };
  const of = (cable: string, property: string) => proved(cable).find((each) => each.property === property);

  it("is never one of coverage, though the readings alone would prove it", () => {
    expect(of("to-block", "sees-charge-point")).toMatchObject({ isProved: true, missedByDesign: [] });
    expect(of("to-house-board", "sees-charge-point")).toMatchObject({
      isProved: false,
      missedByDesign: ["workshop", "car"],
    });
    expect(of("to-car", "sees-building")?.missedByDesign).toEqual(["house", "solar", "workshop"]);
  });
  it("leaves other properties as the readings prove them", () => {
    expect(of("to-house-board", "direction")).toMatchObject({ isProved: true, missedByDesign: [] });
  });
  it("is told from the design of the chain", () => {
    const { job, tree } = site("to-car");
    expect(chainOfJob(job, tree)?.places).toHaveLength(1);
  });
});

it("finds no fault where nothing was read, not even the one that the design itself is", () => {
  const steps = [
    { id: "idle", meter: {} },
    { id: "car", chargePoint: { offeredA: 32, lines: ["L1" as const] }, meter: {} },
  ];
  const result = diagnose(
    site("to-house-board"),
    { format: "underfuse-readings", formatVersion: 1, steps },
    GREAT_BRITAIN.faults,
  );
  if (!result.ok) throw new Error(result.reason);
  expect(result.diagnosis.classes[0]?.members[0]?.faults.map(({ id }) => id)).toEqual(["F18"]);
  expect(result.diagnosis.isTold).toBe(false);
});
