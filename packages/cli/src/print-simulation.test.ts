import type { SimulationView, SweepRow, SweepView, SweptSite } from "@underfuse/engine";
import { expect, it } from "vitest";
import { simulationText, sweepCsv, sweepText } from "./print-simulation.ts";

it("keeps the columns of a sweep apart within eighty, however long it is over", () => {
  const row: SweepRow = {
    limit: "100 A",
    margin: "10 A",
    readEvery: "10 s",
    mornings: "100 %",
    missing: "10.25 kWh",
    longest: "12 h 44 min",
    over: "130 h 4 min",
    byCars: "30 h 44 min",
    fuse: "50 %",
    refused: "",
    isRecommended: true,
  };
  const view: SweepView = { title: "A sweep.", rows: [row], recommendation: [], fallbacks: [], remarks: [] };
  const line = sweepText(view, false)
    .split("\n")
    .find((text) => text.startsWith("100 A")) as string;
  expect(line).toMatch(/ 12 h 44 min 130 h 4 min 30 h 44 min 50 % ←$/);
  expect([...line].length).toBeLessThanOrEqual(80);
  const hot = { ...row, refused: "cable too hot", isRecommended: false };
  const lines = sweepText({ ...view, rows: [row, hot], remarks: ["Prove it."] }, false).split("\n");
  // Title, headings and the recommended row; under the next one why it is refused.
  expect(lines.slice(5, 6)).toEqual(["    cable too hot"]);
  expect(lines.at(-1)).toBe("  Prove it.");
});

it("gives every setting as a table, on its worst line, with nothing where nothing is known", () => {
  const line = (share: number) => ({
    over: { count: 4 * share, totalS: 90 * share, longestS: 50 * share, carS: 30 * share },
    fuse: { fast: 0.25 * share, slow: 0.9 },
  });
  const outcome = {
    fullShare: 0.5,
    deliveredKwh: 7.25,
    missingKwh: 1.5,
    lines: [line(1), line(0.5)],
    bodies: [],
    excursions: [],
  };
  const smallPlan = {
    control: { law: { kind: "integrating", gain: 0.2 }, decideEveryS: 0, fallbackAfterS: 60 },
    faults: [],
    cars: [],
  };
  const swept = [
    { setting: { limitA: 60, marginA: 2, readEveryS: 5, fallbackA: 6 }, outcome },
    {
      setting: { limitA: 60, marginA: 4, readEveryS: 1, fallbackA: null },
      outcome: { ...outcome, fullShare: null },
    },
  ];
  const terms = { plan: smallPlan, highestA: 57, usualS: 15, withoutCars: outcome };
  expect(
    sweepCsv({ swept, terms } as unknown as SweptSite)
      .split("\n")
      .slice(1),
  ).toEqual([
    "60,2,5,6,0.5,7.25,1.5,4,90,50,30,0.25,margin-too-small",
    "60,4,1,,,7.25,1.5,4,90,50,30,0.25,",
    "",
  ]);
});

it("prints every part of a simulation, each sentence with its mark, and leaves out what there is none of", () => {
  const trial = {
    what: "bus broken",
    fallback: "6 A",
    longest: "9 s",
    highest: "70 A",
    fuse: "3 %",
    tone: "fail",
  } as const;
  const view: SimulationView = {
    title: "A day.",
    cars: [{ tone: "pass", text: "Full." }],
    supply: [{ tone: "unknown", text: "Drawn." }],
    timing: [{ tone: "none", text: "Limit." }],
    trials: [trial, { ...trial, fallback: null, fuse: null, tone: "pass" }],
    trialsAre: "One of these days.",
    remarks: ["Prove it."],
    assumed: ["dead time: 3 s"],
  };
  const lines = simulationText(view, ["4 seeds"], false).split("\n");
  expect(lines.filter((text) => text !== "").map((text) => text.trim().replace(/ +/g, " "))).toEqual([
    "A day.",
    "The cars",
    "✓ Full.",
    "The supply",
    "? Drawn.",
    "Other days",
    "4 seeds",
    "The load manager",
    "· Limit.",
    "If something fails",
    "One of these days.",
    "✗ bus broken; fallback 6 A: over for up to 9 s, highest 70 A; life of the fuse",
    "used: 3 %",
    "✓ bus broken: over for up to 9 s, highest 70 A",
    "Know this",
    "Prove it.",
    "Taken for granted, because nobody recorded it",
    "dead time: 3 s",
  ]);
  expect(simulationText({ ...view, trials: [], assumed: [] }, [], false)).not.toMatch(
    /Other days|If something fails|Taken for granted/,
  );
});
