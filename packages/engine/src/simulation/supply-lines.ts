/**
 * The supply carries the building and the cars: what is over the limit, what ages the fuse, what warms cables.
 *
 * @module
 */
import { timeOnEdge } from "../protection/index.ts";
import type { SiteState } from "./site-state.ts";
import { steadyTemperatureC } from "./thermal-body.ts";

/** An offer may be this much more than the room, for rounding; limit and offer together are not over it then. [A] */
const ROUNDING_A = 1e-9;

/** A number of steps through which every current is the same. */
export function carry(state: SiteState, step: number, steps: number): void {
  const { plan, buildingA, carsA } = state;
  for (let line = 0; line < plan.lineCount; line++) {
    const building = buildingA[line] as number;
    const cars = carsA[line] as number;
    countLine(state, line, building, cars, step, steps);
    if (plan.fuse !== null) ageFuse(state, line, Math.abs(building + cars), steps);
  }
  if (plan.bodies.length > 0) warm(state, steps);
}

function countLine(
  state: SiteState,
  line: number,
  buildingA: number,
  carsA: number,
  step: number,
  steps: number,
): void {
  const { lines, plan } = state;
  const current = buildingA + carsA;
  lines.minuteSumA[line] = (lines.minuteSumA[line] as number) + current * steps;
  lines.minuteCarSumA[line] = (lines.minuteCarSumA[line] as number) + carsA * steps;
  if (current > (lines.minuteMostA[line] as number)) lines.minuteMostA[line] = current;
  if (current < (lines.leastA[line] as number)) lines.leastA[line] = current;
  if (current > plan.supplyLimitA + ROUNDING_A) countOver(state, line, buildingA, carsA, steps);
  else if ((lines.runSteps[line] as number) > 0) endExcursion(state, line, step);
}

function countOver(
  { lines, plan }: SiteState,
  line: number,
  buildingA: number,
  carsA: number,
  steps: number,
): void {
  const before = lines.runSteps[line] as number;
  const run = before + steps;
  lines.runSteps[line] = run;
  lines.overSteps[line] = (lines.overSteps[line] as number) + steps;
  if (before === 0) lines.overCount[line] = (lines.overCount[line] as number) + 1;
  if (run > (lines.longestSteps[line] as number)) lines.longestSteps[line] = run;
  if (buildingA > plan.supplyLimitA + ROUNDING_A) {
    lines.aloneSteps[line] = (lines.aloneSteps[line] as number) + steps;
    lines.runAloneSteps[line] = (lines.runAloneSteps[line] as number) + steps;
  }
  if (carsA > 0) {
    lines.carSteps[line] = (lines.carSteps[line] as number) + steps;
    lines.runCarSteps[line] = (lines.runCarSteps[line] as number) + steps;
  }
}

/** @param step First step that is no longer over. */
export function endExcursion({ lines, plan, excursions }: SiteState, line: number, step: number): void {
  const lengthS = (lines.runSteps[line] as number) * plan.stepS;
  const aloneS = (lines.runAloneSteps[line] as number) * plan.stepS;
  const carS = (lines.runCarSteps[line] as number) * plan.stepS;
  if (lengthS > plan.listExcursionsFromS)
    excursions.push({ line, startS: step * plan.stepS - lengthS, lengthS, aloneS, carS });
  lines.runAloneSteps[line] = 0;
  lines.runCarSteps[line] = 0;
  lines.runSteps[line] = 0;
}

/** Life is used above the first gate of an edge, and taken back below it. */
function ageFuse({ lines, plan, cooled }: SiteState, line: number, currentA: number, steps: number): void {
  const { band } = plan.fuse as NonNullable<typeof plan.fuse>;
  const timeS = steps * plan.stepS;
  const fastGate = band.fast[0]?.[0] as number;
  const slowGate = band.slow[0]?.[0] as number;
  const fast = lines.fast[line] as number;
  const slow = lines.slow[line] as number;
  if (currentA < fastGate && fast === 0 && slow === 0) return;
  const kept = cooled[steps] as number;
  const nowFast = currentA < fastGate ? fast * kept : fast + timeS / timeOnEdge(band.fast, currentA, "fast");
  const nowSlow = currentA < slowGate ? slow * kept : slow + timeS / timeOnEdge(band.slow, currentA, "slow");
  lines.fast[line] = nowFast;
  lines.slow[line] = nowSlow;
  if (nowFast > (lines.dayFast[line] as number)) lines.dayFast[line] = nowFast;
  if (nowSlow > (lines.daySlow[line] as number)) lines.daySlow[line] = nowSlow;
}

/** Cables and tails warm towards what their current leads to. */
function warm(
  { plan, points, buildingA, carsA, bodyC, bodyMostC, bodyShare }: SiteState,
  steps: number,
): void {
  for (let body = 0; body < plan.bodies.length; body++) {
    const of = plan.bodies[body] as (typeof plan.bodies)[number];
    const isSupply = of.carries === "supply";
    const way = bodyShare[body]?.[steps] as number;
    for (let line = 0; line < (isSupply ? plan.lineCount : 1); line++) {
      const current = isSupply
        ? (buildingA[line] as number) + (carsA[line] as number)
        : (points.carA[of.carries as number] as number);
      const at = 3 * body + line;
      const nowC = (bodyC[at] as number) + way * (steadyTemperatureC(of, current) - (bodyC[at] as number));
      bodyC[at] = nowC;
      if (nowC > (bodyMostC[at] as number)) bodyMostC[at] = nowC;
    }
  }
}
