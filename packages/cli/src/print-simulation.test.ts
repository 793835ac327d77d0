import type { SweepRow, SweepView } from "@underfuse/engine";
import { expect, it } from "vitest";
import { sweepText } from "./print-simulation.ts";

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
});
