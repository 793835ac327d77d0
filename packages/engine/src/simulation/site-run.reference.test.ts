import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import type { Session, SitePlan } from "./site-plan.ts";
import { addSessions, createSiteRun, finishRun, runDay, type SiteRun } from "./site-run.ts";

interface Demand {
  readonly seed: number;
  readonly baseA: readonly number[];
  readonly swingA: readonly number[];
  readonly spikeA: number;
}

interface Checkpoint {
  readonly atS: number;
  /** Car, offer noticed, offer made [A], delivered [kWh]; null without a car. */
  readonly points: readonly (readonly (number | null)[])[];
  /** Reading [A], used life on the fast and the slow edge. */
  readonly lines: readonly (readonly number[])[];
  readonly bodies: readonly (readonly number[])[];
  readonly sums: readonly [all: readonly number[], cars: readonly number[]];
  readonly moment: number;
}

interface Case {
  readonly name: string;
  readonly what: string;
  readonly days: number;
  readonly checkEveryS: number;
  readonly demand: Demand;
  readonly plan: SitePlan;
  readonly sessions: readonly Session[];
  readonly result: {
    readonly checkpoints: readonly Checkpoint[];
    readonly sessions: readonly (Session & { readonly deliveredKwh: number; readonly isFull: boolean })[];
    readonly lines: readonly Readonly<Record<string, number>>[];
    readonly excursions: SiteRun["state"]["excursions"];
    readonly bodiesMostC: readonly (readonly number[])[];
    readonly points: readonly { readonly pausedSteps: number; readonly throttledSteps: number }[];
  };
}

const { cases }: { readonly cases: readonly Case[] } = JSON.parse(
  readFileSync(new URL("../../../../reference/simulation/cases.json", import.meta.url), "utf8"),
);

/**
 * Relative to 1 or to the size of the number. The other program adds up step by step what is taken together
 * here, 86,400 roundings of 1e-16 at most, and writes twelve digits.
 */
const TOLERANCE = 1e-9;

function expectClose(got: unknown, wanted: number, what: string): void {
  const miss = Math.abs((got as number) - wanted) / Math.max(1, Math.abs(wanted));
  // NaN and undefined fail as well.
  if (!(miss <= TOLERANCE)) expect.fail(`${what}: ${got} here, ${wanted} there`);
}

/** The building's current of each day, by the recurrence of reference/simulation/demand.py. */
function daysOf({ demand, days, plan }: Case): Float64Array[] {
  const { baseA, swingA, spikeA } = demand;
  let x = demand.seed;
  return Array.from({ length: days }, () =>
    Float64Array.from({ length: 1440 * plan.lineCount }, (_, at) => {
      const hour = Math.floor(at / plan.lineCount / 60);
      x = (16_807 * x) % (2 ** 31 - 1);
      const spike = Math.floor(x / 4096) % 16 === 0 ? spikeA : 0;
      return (baseA[hour] as number) + ((swingA[hour] as number) * (x % 4096)) / 4096 + spike;
    }),
  );
}

function holdAgainst(
  { state, present }: SiteRun,
  sums: readonly [number[], number[]],
  wanted: Checkpoint,
): void {
  const { points, lines, plan } = state;
  const at = `at ${wanted.atS} s`;
  for (const [point, [carA, noticedA, offeredA, deliveredKwh]] of wanted.points.entries()) {
    const of = `point ${point}, ${at}`;
    expectClose(points.offeredA[point], offeredA as number, `offer, ${of}`);
    expect(present[point] === null, `no car, ${of}`).toBe(carA === null);
    if (carA === null) continue;
    expectClose(points.carA[point], carA as number, `car, ${of}`);
    expectClose(points.seenA[point], noticedA as number, `noticed, ${of}`);
    expectClose(points.deliveredKwh[point], deliveredKwh as number, `delivered, ${of}`);
  }
  for (const [line, [readingA, fast, slow]] of wanted.lines.entries()) {
    const of = `line ${line}, ${at}`;
    expectClose(state.reading.totalA[line], readingA as number, `reading, ${of}`);
    expectClose(lines.fast[line], fast as number, `fast edge, ${of}`);
    expectClose(lines.slow[line], slow as number, `slow edge, ${of}`);
    expectClose(sums[0][line], wanted.sums[0][line] as number, `sum, ${of}`);
    expectClose(sums[1][line], wanted.sums[1][line] as number, `sum of the cars, ${of}`);
  }
  for (const [body, temperatures] of wanted.bodies.entries()) {
    const { carries } = plan.bodies[body] as SitePlan["bodies"][number];
    // The cable of a charge point is one body: its first line.
    const linesOf =
      carries === "supply" ? [...temperatures.keys()] : [plan.points[carries]?.lines[0] as number];
    for (const [place, line] of linesOf.entries())
      expectClose(
        state.bodyC[3 * body + place],
        temperatures[line] as number,
        `body ${body}, line ${line}, ${at}`,
      );
  }
}

describe("a day beside an independent program that takes every step by itself", () => {
  it("has every kind of day", () => {
    expect(cases.length).toBeGreaterThanOrEqual(30);
    for (const { result, days, checkEveryS } of cases)
      expect(result.checkpoints.length).toBe((86_400 * days) / checkEveryS);
  });
  it.each(cases)("$name: $what", (given) => {
    const { plan, result } = given;
    const run = createSiteRun(plan);
    addSessions(run, given.sessions);
    const lines = Array.from({ length: plan.lineCount }, (_, line) => line);
    const sums: [number[], number[]] = [lines.map(() => 0), lines.map(() => 0)];
    let [minute, moment] = [0, 0];
    for (const buildingA of daysOf(given))
      runDay(run, buildingA, ({ sumA, carSumA }) => {
        minute++;
        for (const line of lines) {
          sums[0][line] = (sums[0][line] as number) + (sumA[line] as number);
          sums[1][line] = (sums[1][line] as number) + (carSumA[line] as number);
          moment += minute * (carSumA[line] as number);
        }
        const check = (minute * 60) / given.checkEveryS;
        if (!Number.isInteger(check)) return;
        const wanted = result.checkpoints[check - 1] as Checkpoint;
        expect(wanted.atS).toBe(minute * 60);
        holdAgainst(run, sums, wanted);
        expectClose(moment, wanted.moment, `moment at ${wanted.atS} s`);
        for (const sum of sums) sum.fill(0);
      });
    finishRun(run);

    const { state } = run;
    expect(run.results.map(({ deliveredKwh, waitedS, ...session }) => session)).toEqual(
      result.sessions.map(({ deliveredKwh, ...session }) => session),
    );
    for (const [index, { deliveredKwh }] of result.sessions.entries())
      expectClose(run.results[index]?.deliveredKwh, deliveredKwh, `delivered in session ${index}`);
    for (const [line, wanted] of result.lines.entries()) {
      const most = (of: "peakA" | "mostA" | "slow") =>
        Math.max(...run.days.map((day) => day[of][line] as number));
      const got: Readonly<Record<string, number | undefined>> = {
        overSteps: state.lines.overSteps[line],
        overCount: state.lines.overCount[line],
        longestSteps: state.lines.longestSteps[line],
        aloneSteps: state.lines.aloneSteps[line],
        carSteps: state.lines.carSteps[line],
        peakA: most("peakA"),
        mostA: most("mostA"),
        mostFast: state.lines.mostFast[line],
        mostSlow: most("slow"),
      };
      for (const [name, value] of Object.entries(wanted))
        expectClose(got[name], value, `${name} of line ${line}`);
    }
    expect(state.excursions).toEqual(result.excursions);
    expect(
      plan.points.map((_, point) => ({
        pausedSteps: state.points.pausedSteps[point],
        throttledSteps: state.points.throttledSteps[point],
      })),
    ).toEqual(result.points);
    for (const [body, most] of result.bodiesMostC.entries())
      expectClose(
        Math.max(...state.bodyMostC.subarray(3 * body, 3 * body + 3)),
        Math.max(...most),
        `most of body ${body}`,
      );
  });
});
