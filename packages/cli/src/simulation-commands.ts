import {
  type Assessment,
  type OptionKind,
  type OptionNights,
  optionNights,
  optionsOf,
  type Study,
  simulateSite,
  simulationJson,
  simulationView,
  study,
} from "@underfuse/engine";
import { GREAT_BRITAIN } from "@underfuse/knowledge";
import { type Command, InvalidArgumentError } from "commander";
import { type ReadySite, readySite } from "./building-of.ts";
import { EXIT, Refusal } from "./exit-status.ts";
import { loadJob } from "./load-job.ts";
import { simulationText } from "./print-simulation.ts";
import type { Surroundings } from "./surroundings.ts";

/** Days of a building that is drawn, and the most of a recorded one, when nothing is asked. */
const DEFAULT_DAYS = 56;
const FIRST_SEED = 1;

interface RunOptions {
  readonly days?: number;
  readonly year?: true;
  readonly seed: number;
  readonly json?: true;
}

/** The commands that run a job through time. */
export function addSimulationCommands(
  program: Command,
  world: Surroundings,
  end: (status: number) => void,
): void {
  const print = (text: string): void => world.out(`${text}\n`);

  program
    .command("simulate")
    .description("building, cars, load manager and main fuse, second by second")
    .argument("<job>", "job file")
    .option("--days <number>", "days to run; as many as were recorded when left out", wholeDays)
    .option("--year", "run 365 days")
    .option("--seed <number>", "which days the cars come: the same number, the same days", seed, FIRST_SEED)
    .option("--json", "plain data for other programs")
    .action(async (path: string, options: RunOptions) => {
      const studied = await studiedAt(path, world);
      const { site, building } = readyAt(path, studied, options.seed);
      const simulated = simulateSite(studied, site, {
        building,
        days: daysOf(options, building.days),
        seed: options.seed,
        triesFaults: true,
        designedFallbackA: designedFallbackA(studied),
      });
      const view = simulationView(simulated);
      if (options.json) print(JSON.stringify(simulationJson(simulated), null, 2));
      else print(simulationText(view, world.isColourful));
      const tones = [...view.cars, ...view.supply, ...view.timing].map(({ tone }) => tone);
      end(tones.includes("fail") ? EXIT.fails : tones.includes("unknown") ? EXIT.cannotTell : EXIT.allPass);
    });
}

/** A job studied as on today. */
async function studiedAt(path: string, world: Surroundings): Promise<Study> {
  const { open, series, unread } = await loadJob(path, world);
  return study(open, GREAT_BRITAIN, { onIso: world.today(), series, unread });
}

function readyAt(path: string, studied: Study, seed: number): Extract<ReadySite, { ok: true }> {
  const ready = readySite(studied, seed);
  if (!ready.ok) throw new Refusal(`${path}: ${ready.because}`, EXIT.cannotTell);
  return ready;
}

/** Days to run: as asked; otherwise those recorded. */
export const daysOf = (
  { days, year }: { readonly days?: number; readonly year?: true },
  recorded: number,
): number => days ?? (year ? 365 : Math.min(recorded, DEFAULT_DAYS));

/** Nights of the options of an assessment; none where the site cannot be run. */
export function nightsOf({ study: studied, options }: Assessment): ReadonlyMap<OptionKind, OptionNights> {
  const ready = readySite(studied, FIRST_SEED);
  if (!ready.ok) return new Map();
  const { site, building } = ready;
  return optionNights(site, options, { building, days: 365, seed: FIRST_SEED });
}

/** Fallback that the managed option allows; null while it cannot be told. [A] */
function designedFallbackA(studied: Study): number | null {
  const fallback = optionsOf(studied).find(({ kind }) => kind === "managed")?.fallback;
  return fallback === undefined || fallback === null || fallback.kind === "unknown" ? null : fallback.value;
}

function wholeDays(text: string): number {
  const value = Number(text);
  if (!(Number.isInteger(value) && value >= 1 && value <= 3660))
    throw new InvalidArgumentError("Write a whole number of days from 1 to 3660.");
  return value;
}

export function seed(text: string): number {
  const value = Number(text);
  if (!(Number.isInteger(value) && value >= 0 && value <= Number.MAX_SAFE_INTEGER))
    throw new InvalidArgumentError("Write a whole number such as 7.");
  return value;
}
