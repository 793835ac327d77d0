import {
  type BuildingSource,
  recordedBuilding,
  type Study,
  simulateSite,
  simulationJson,
  simulationView,
  sitePlanOf,
  study,
} from "@underfuse/engine";
import { GREAT_BRITAIN } from "@underfuse/knowledge";
import { type Command, InvalidArgumentError } from "commander";
import { EXIT, Refusal } from "./exit-status.ts";
import { loadJob } from "./load-job.ts";
import { simulationText } from "./print-simulation.ts";
import type { Surroundings } from "./surroundings.ts";

interface SimulateOptions {
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
    .option("--seed <number>", "which days the cars come: the same number, the same days", seed, 1)
    .option("--json", "plain data for other programs")
    .action(async (path: string, options: SimulateOptions) => {
      const studied = await studiedAt(path, world);
      const planned = sitePlanOf(studied);
      if (!planned.ok)
        throw new Refusal(
          `${path}: nothing can be simulated before this is known: ${planned.missing.map(({ label }) => label).join("; ")}.`,
          EXIT.cannotTell,
        );
      const building = buildingAt(path, studied);
      const days = options.days ?? (options.year ? 365 : Math.min(building.days, 365));
      const simulated = simulateSite(studied, planned.site, {
        building,
        days,
        seed: options.seed,
        triesFaults: true,
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

/** The building as it was recorded. */
function buildingAt(path: string, studied: Study): BuildingSource {
  const recorded = recordedBuilding(studied);
  if (!recorded.ok)
    throw new Refusal(
      recorded.because === "no-recording"
        ? `${path} has no recording of ${recorded.lines.join(", ")} that could be read. Record the supply for two weeks and enter it under demand.`
        : `${path}: the recordings of ${recorded.lines.join(", ")} begin on another day or have other intervals than the first line's. Record all lines together.`,
      EXIT.cannotTell,
    );
  const { building } = recorded;
  return {
    ...building,
    kind: "recorded",
    lacks: building.lacks.map((id) => studied.tree.node(id).label),
  };
}

function wholeDays(text: string): number {
  const value = Number(text);
  if (!(Number.isInteger(value) && value >= 1 && value <= 3660))
    throw new InvalidArgumentError("Write a whole number of days from 1 to 3660.");
  return value;
}

function seed(text: string): number {
  const value = Number(text);
  if (!(Number.isInteger(value) && value >= 0 && value <= Number.MAX_SAFE_INTEGER))
    throw new InvalidArgumentError("Write a whole number such as 7.");
  return value;
}
