import {
  type BuildingSource,
  designedFallbackA,
  doubtsOf,
  judgeSweep,
  type OutcomeSpread,
  outcomeSpread,
  type PlannedSite,
  type Ready,
  readySite,
  running,
  type SimulatedSite,
  type SiteOutcome,
  type Study,
  type SweepGrid,
  type SweptSetting,
  type SweptSite,
  serialiseJob,
  settingsOf,
  simulatingSite,
  simulationJson,
  simulationView,
  spreadSentences,
  study,
  sweepJson,
  sweepView,
  usualGrid,
} from "@underfuse/engine";
import { GREAT_BRITAIN } from "@underfuse/knowledge";
import { type Command, Option } from "commander";
import { buildingFrom, type DemandDays, type DemandOptions, givenDemand, withDemand } from "./demand-file.ts";
import { EXIT, Refusal } from "./exit-status.ts";
import { type LoadedJob, loadJob } from "./load-job.ts";
import { wrapped } from "./print.ts";
import { simulationText, sweepCsv, sweepText } from "./print-simulation.ts";
import { progress } from "./progress.ts";
import { runDays } from "./run-days.ts";
import { sessionsCsv } from "./sessions-csv.ts";
import { amperes, MOST_DAYS, periods, seed, wholeDays, wholeSeeds } from "./simulation-arguments.ts";
import { listenForStop } from "./stop-listener.ts";
import type { Surroundings } from "./surroundings.ts";
import {
  SWEEP_WORK,
  type SweepPiece,
  type SweepResult,
  type SweepShared,
  sweepPieces,
} from "./sweep-work.ts";
import { doPieces } from "./worker-pool.ts";
import { FIRST_SEED, YEAR_DAYS } from "./year-through-time.ts";

/** Days of a building that is drawn, when nothing is asked. */
const DRAWN_DAYS = 56;
/** Most settings of a sweep. */
const MOST_SETTINGS = 4096;

interface RunOptions extends DemandOptions {
  readonly days?: number;
  readonly year?: true;
  readonly seed: number;
  readonly json?: true;
  readonly csv?: string;
}

interface SweepOptions extends RunOptions {
  readonly limit?: readonly number[];
  readonly margin?: readonly number[];
  readonly readEvery?: readonly number[];
  readonly fallback?: readonly number[];
}

/** The commands that run a job through time. */
export function addSimulationCommands(
  program: Command,
  world: Surroundings,
  end: (status: number) => void,
): void {
  const print = (text: string): void => world.out(`${text}\n`);
  const command = (name: string, description: string): Command =>
    withDemand(program.command(name).description(description).argument("<job>", "job file"))
      .option(
        "--days <number>",
        `days to run; when left out as many as were recorded, or ${DRAWN_DAYS} of a building that is drawn`,
        wholeDays,
      )
      .addOption(new Option("--year", "run 365 days").conflicts("days"))
      .option("--seed <number>", "which days the cars come: the same number, the same days", seed, FIRST_SEED)
      .option("--csv <file>", "write a table; never over another file")
      .option("--json", "plain data for other programs");
  const writeTable = async (path: string, text: string): Promise<void> => {
    await world.writeText(path, text, false).catch((error: { code?: string }) => {
      throw new Refusal(
        error.code === "EEXIST"
          ? `${path} is there already and is left as it is. Choose another name.`
          : `${path}: it could not be written there. Choose another place.`,
      );
    });
  };

  command("simulate", "building, cars, load manager and main fuse, second by second")
    .option("--seeds <number>", "run so many seeds and say how far they spread", wholeSeeds)
    .action(async (path: string, options: RunOptions & { readonly seeds?: number }) => {
      const studied = studiedNow(await loadJob(path, world), world);
      const { site, building, demand } = await readyAt(path, studied, options, world);
      const days = daysOf(options, building.days);
      const simulated = await runDays(
        "Simulating days",
        days,
        simulatingSite(studied, site, {
          building,
          days,
          seed: options.seed,
          triesFaults: true,
          designedFallbackA: designedFallbackA(studied, site),
        }),
        world,
      );
      const isStopped = simulated.outcome.days < days;
      const spread =
        options.seeds === undefined || isStopped
          ? null
          : await spreadOver(options.seeds, studied, simulated, { demand, world });
      const view = simulationView(simulated);
      if (options.json)
        print(
          JSON.stringify({ ...simulationJson(simulated), seedsAsked: options.seeds ?? 1, spread }, null, 2),
        );
      else print(simulationText(view, told(spread, options.seeds), world.isColourful));
      if (options.csv !== undefined) await writeTable(options.csv, sessionsCsv(simulated));
      const tones = [...view.cars, ...view.supply, ...view.timing].map(({ tone }) => tone);
      if (isStopped || (spread?.seeds ?? 0) < (options.seeds ?? 0)) end(EXIT.stopped);
      else
        end(tones.includes("fail") ? EXIT.fails : tones.includes("unknown") ? EXIT.cannotTell : EXIT.allPass);
    });

  command("sweep", "the load manager's settings side by side over the same days, and which to choose")
    .option("--limit <list>", "limits per line, such as 60,80 [A]", amperes)
    .option("--margin <list>", "margins under the limit, such as 0,2,4 [A]", amperes)
    .option("--read-every <list>", "times between readings, such as 1,5 [s]", periods)
    .option("--fallback <list>", "fallbacks per charge point, such as 0,6,10 [A]", amperes)
    .action(async (path: string, options: SweepOptions) => {
      const loaded = await loadJob(path, world);
      const studied = studiedNow(loaded, world);
      const { site, building, demand } = await readyAt(path, studied, options, world);
      const days = daysOf(options, building.days);
      const grid = gridOf(options, usualGrid(site, designedFallbackA(studied, site)), site);
      const settings = settingsOf(grid);
      const { seed: drawnBy } = options;
      const { series, unread } = loaded;
      const shared = {
        text: serialiseJob(loaded.open.document),
        ...{ series, unread, demand, days },
        onIso: world.today(),
        seed: drawnBy,
      };
      const done = await sweptOnThreads(shared, sweepPieces(site.plan, settings, world.threadCount), world);
      if (done.length === 0)
        throw new Refusal("Stopped before the first settings were done. Nothing was written.", EXIT.stopped);
      const swept = judgeSweep(studied, site, { building, seed: drawnBy, grid }, done);
      const view = sweepView(swept, settings.length);
      if (options.json) print(JSON.stringify(sweepJson(swept, settings.length), null, 2));
      else print(sweepText(view, world.isColourful));
      if (options.csv !== undefined) await writeTable(options.csv, sweepCsv(swept));
      end(sweepStatus(swept, settings.length));
    });
}

/** 1 where no setting is safe or none was tried by a car, 2 where fuse, building or delays leave it open. */
function sweepStatus({ recommendation, site, swept, building }: SweptSite, askedCount: number): number {
  if (swept.length < askedCount) return EXIT.stopped;
  if (recommendation.setting === null) return EXIT.fails;
  const [first] = swept;
  const isOpen =
    site.plan.fuse === null ||
    !recommendation.isBounded ||
    (first !== undefined && doubtsOf({ building, site, outcome: first.outcome }).length > 0);
  return isOpen ? EXIT.cannotTell : EXIT.allPass;
}

/** A job studied as on today; recordings that could not be read are named. */
function studiedNow({ open, series, unread }: LoadedJob, world: Surroundings): Study {
  for (const [id, why] of unread) world.err(`${wrapped(`Recording "${id}", ${why}. It is left out.`)}\n`);
  return study(open, GREAT_BRITAIN, { onIso: world.today(), series, unread });
}

/** Pieces of a sweep on as many threads as there are; those that are done when the person asks to stop. */
async function sweptOnThreads(
  shared: SweepShared,
  pieces: readonly SweepPiece[],
  world: Surroundings,
): Promise<readonly SweptSetting[]> {
  const results: SweepResult[] = [];
  const stopping = new AbortController();
  const unlisten = world.onStop(() => stopping.abort());
  const shown = progress("Sweeping settings", world);
  const onResult = (result: SweepResult): void => {
    results.push(result);
    shown.update(results.length / pieces.length);
  };
  try {
    const asked = { shared, pieces, threads: world.threadCount, stop: stopping.signal, onResult };
    await doPieces(SWEEP_WORK, asked, world);
  } finally {
    unlisten();
    shown.clear();
  }
  return results
    .flat()
    .toSorted((a, b) => a.place - b.place)
    .map(({ swept }) => swept);
}

async function readyAt(
  path: string,
  studied: Study,
  { seed: drawnBy, ...options }: RunOptions,
  world: Surroundings,
): Promise<{
  readonly site: PlannedSite;
  readonly building: BuildingSource;
  /** The recording that was given instead of the job's own. */
  readonly demand: DemandDays | null;
}> {
  const orRefused = <T>(ready: Ready<T>): T => {
    if (ready.ok) return ready.value;
    throw new Refusal(`${path}: ${ready.because}`, EXIT.cannotTell);
  };
  const site = orRefused(readySite(studied));
  const demand = await givenDemand(options, studied, world);
  const building = orRefused(buildingFrom(demand, studied, drawnBy));
  return { site, building, demand };
}

const daysOf = ({ days, year }: { readonly days?: number; readonly year?: true }, recorded: number): number =>
  days ?? (year ? YEAR_DAYS : Math.min(Number.isFinite(recorded) ? recorded : DRAWN_DAYS, MOST_DAYS));

function told(spread: OutcomeSpread | null, asked = 0): readonly string[] {
  const finished = spread?.seeds ?? 0;
  const stopped = finished < asked ? [`Stopped after ${finished} of ${asked} seeds.`] : [];
  return [...(spread === null ? [] : spreadSentences(spread)), ...stopped];
}

/** The same days with other cars, and where it is drawn another building, seed by seed, until the person stops it. */
async function spreadOver(
  seeds: number,
  studied: Study,
  { site, terms, outcome: first }: SimulatedSite,
  { demand, world }: { readonly demand: DemandDays | null; readonly world: Surroundings },
): Promise<OutcomeSpread> {
  const outcomes = [first];
  const stop = listenForStop(world);
  while (outcomes.length < seeds && !stop.isAsked()) {
    const drawnBy = terms.seed + outcomes.length;
    const other = buildingFrom(demand, studied, drawnBy);
    const building = other.ok ? other.value : terms.building;
    const asked = { plans: [site.plan], habits: site.habits, building, days: terms.days, seed: drawnBy };
    const what = `Seed ${outcomes.length + 1} of ${seeds}`;
    const [outcome] = (await runDays(what, terms.days, running(asked), world)) as [SiteOutcome];
    if (outcome.days < terms.days) break;
    outcomes.push(outcome);
  }
  stop.end();
  return outcomeSpread(outcomes);
}

function gridOf(
  { limit, margin, readEvery, fallback }: SweepOptions,
  usual: SweepGrid,
  { plan }: PlannedSite,
): SweepGrid {
  const { minOfferA } = plan.control;
  const tooLow = fallback?.find((value) => value > 0 && value < minOfferA);
  if (tooLow !== undefined)
    throw new Refusal(
      `--fallback ${tooLow}: a charge point offers ${minOfferA} A or nothing, so this would be a pause. Write 0 for a pause, or ${minOfferA} and more.`,
    );
  const grid = {
    limitA: limit ?? usual.limitA,
    marginA: margin ?? usual.marginA,
    readEveryS: readEvery ?? usual.readEveryS,
    fallbackA: fallback ?? usual.fallbackA,
  };
  const count = Object.values(grid).reduce((product, list) => product * list.length, 1);
  if (count > MOST_SETTINGS)
    throw new Refusal(
      `These lists make ${count} settings; at most ${MOST_SETTINGS} are swept at once. Shorten them.`,
    );
  return grid;
}
