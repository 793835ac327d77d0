import { readFileSync } from "node:fs";
import { settingsOf } from "@underfuse/engine";
import { expect, it } from "vitest";
import { SWEEP_WORK, sweepPieces } from "./sweep-work.ts";
import { exampleJob } from "./testing/at-terminal.ts";

const settings = settingsOf({ limitA: [60], marginA: [0, 2, 4], readEveryS: [1, 5], fallbackA: [0, 6] });
const plan = { faults: [], control: { decideEveryS: 0, fallbackAfterS: 60 } } as unknown as Parameters<
  typeof sweepPieces
>[0];

it("cuts settings so that each is in one piece, by its place, with those that are alike", () => {
  // Six kinds of two settings each, that differ in a fallback nothing takes; four pieces to a thread.
  const pieces = sweepPieces(plan, settings, 1);
  expect(pieces).toHaveLength(4);
  const all = pieces.flat();
  expect(all.map(({ place }) => place).toSorted((a, b) => a - b)).toEqual([...settings.keys()]);
  expect(all.every(({ place, setting }) => settings[place] === setting)).toBe(true);
  for (const piece of pieces) expect(piece.length % 2).toBe(0);
});

it("gives each setting back at its place in the whole", () => {
  const run = SWEEP_WORK.prepare({
    text: readFileSync(exampleJob("farmhouse"), "utf8"),
    series: new Map(),
    unread: new Map(),
    onIso: "2026-11-25",
    demand: null,
    days: 1,
    seed: 1,
  });
  const piece = [7, 2].map((place) => ({ place, setting: settings[place] as (typeof settings)[number] }));
  expect(run(piece).map(({ place, swept }) => [place, swept.setting])).toEqual([
    [7, settings[7]],
    [2, settings[2]],
  ]);
});
