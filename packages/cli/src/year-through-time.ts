import {
  type Assessment,
  designedFallbackA,
  type OptionKind,
  type OptionNights,
  type ReportExtras,
  type Running,
  readySite,
  runningNights,
  simulatingSite,
  WeekRecorder,
} from "@underfuse/engine";
import { buildingFrom, type DemandDays } from "./demand-file.ts";
import { EXIT, Refusal } from "./exit-status.ts";
import { runDays } from "./run-days.ts";
import { listenForStop } from "./stop-listener.ts";
import type { Surroundings } from "./surroundings.ts";

export const FIRST_SEED = 1;
export const YEAR_DAYS = 365;

/** Nights of the options of an assessment; none where the site cannot be run. */
export async function nightsOf(
  { study: studied, options }: Assessment,
  world: Surroundings,
  demand: DemandDays | null = null,
): Promise<ReadonlyMap<OptionKind, OptionNights>> {
  const [site, building] = [readySite(studied), buildingFrom(demand, studied, FIRST_SEED)];
  if (!site.ok || !building.ok) return new Map();
  const asked = { building: building.value, days: YEAR_DAYS, seed: FIRST_SEED };
  return unbroken("Simulating nights", YEAR_DAYS, runningNights(studied, site.value, options, asked), world);
}

/** Charge points up to which a report is simulated without being asked: more take longer than a report may. */
const MOST_POINTS_IN_REPORT = 10;

/** The site through its days, and the nights of its options, for a report; or why it cannot be run. */
export async function throughTime(
  assessment: Assessment,
  demand: DemandDays | null,
  world: Surroundings,
): Promise<Pick<ReportExtras, "simulation" | "nights" | "notSimulated">> {
  const { study: studied } = assessment;
  const site = readySite(studied);
  if (!site.ok) return { notSimulated: sentence(site.because) };
  const building = buildingFrom(demand, studied, FIRST_SEED);
  if (!building.ok) return { notSimulated: sentence(building.because) };
  const pointCount = site.value.plan.points.length;
  if (pointCount > MOST_POINTS_IN_REPORT)
    return {
      notSimulated: `The job has ${pointCount} charge points, and a report is simulated with up to ${MOST_POINTS_IN_REPORT}. Run underfuse simulate on the job.`,
    };
  const recorder = new WeekRecorder(site.value.plan.lineCount);
  // As many as the nights of the options beside it.
  const days = YEAR_DAYS;
  const run = simulatingSite(studied, site.value, {
    building: building.value,
    days,
    seed: FIRST_SEED,
    triesFaults: true,
    designedFallbackA: designedFallbackA(studied, site.value),
    watch: recorder.watch,
  });
  const simulated = await unbroken("Simulating days", days, run, world);
  const nights = await nightsOf(assessment, world, demand);
  return { simulation: { simulated, week: recorder.best }, nights };
}

/** Drives a run to its end. @throws Refusal when the person stops it. */
async function unbroken<Result>(
  what: string,
  days: number,
  running: Running<Result>,
  world: Surroundings,
): Promise<Result> {
  const stop = listenForStop(world);
  const result = await runDays(what, days, running, world).finally(stop.end);
  if (stop.isAsked()) throw new Refusal("Stopped before it was done. Nothing was written.", EXIT.stopped);
  return result;
}

const sentence = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
