import {
  type BuildingSource,
  buildingOf,
  holdsReadings,
  type Ready,
  readyBuilding,
  recordedSource,
  type Study,
} from "@underfuse/engine";
import {
  CleanSeriesReader,
  type Coverage,
  coverageOf,
  type LocalDays,
  localDays,
  type RecordedChannel,
} from "@underfuse/intake";
import type { Command } from "commander";
import { EXIT, Refusal } from "./exit-status.ts";
import { visible, whyUnreadable } from "./load-job.ts";
import { wrapped } from "./print.ts";
import type { Surroundings } from "./surroundings.ts";

const ZONE = "Europe/London";

/** Whole days of a recording, one series for each line of the supply. */
export interface DemandDays extends LocalDays {
  readonly isSharedEqually: boolean;
  /** Share of its readings that were estimated or are questionable. */
  readonly unsureShare: number;
  /** Loads and storage of the job that it does not contain, by id. */
  readonly lacks: readonly string[];
}

/** A recording that is given instead of the job's own. */
export interface DemandOptions {
  readonly demand?: string;
  readonly doesNotInclude?: readonly string[];
}

/** Adds the options of a recording that is given. */
export const withDemand = (command: Command): Command =>
  command
    .option("--demand <file>", "the building's current, as `import --csv` writes it; else what the job names")
    .option(
      "--does-not-include <load...>",
      "loads of the job, by id, that the file of --demand does not contain: fitted later, or off at the time",
    );

/** The recording that is given; null where none is. @throws Refusal when it cannot be used. */
export async function givenDemand(
  { demand, doesNotInclude }: DemandOptions,
  studied: Study,
  world: Surroundings,
): Promise<DemandDays | null> {
  if (demand === undefined) {
    if (doesNotInclude === undefined) return null;
    throw new Refusal(
      "--does-not-include is said of the file of --demand, and none is given. For a recording of the job write it in the job, under demand.recordings.",
    );
  }
  const ends = [...studied.tree.ofKind("load"), ...studied.tree.ofKind("storage")];
  const unknown = doesNotInclude?.find((id) => ends.every((end) => end.id !== id));
  if (unknown !== undefined)
    throw new Refusal(
      visible(
        `--does-not-include ${unknown}: the job has no such load. Its loads are ${ends.map(({ id, label }) => `${id} (${label})`).join(", ")}.`,
      ),
    );
  const days = await demandFrom(demand, studied, world);
  const said = new Set(studied.job.demand.recordings.flatMap((recording) => recording.doesNotInclude));
  const doubtful = doesNotInclude === undefined ? ends.filter(({ id }) => said.has(id)) : [];
  if (doubtful.length > 0)
    world.err(
      `${wrapped(
        visible(
          `The job says that its own recording does not contain ${doubtful.map(({ label }) => label).join(", ")}; ${demand} is taken to contain it. If it does not, add --does-not-include ${doubtful.map(({ id }) => id).join(" ")}.`,
        ),
      )}\n`,
    );
  return { ...days, lacks: doesNotInclude ?? [] };
}

/** The recording that was given as a building; else the building of the job. */
export const buildingFrom = (
  demand: DemandDays | null,
  studied: Study,
  drawnBy: number,
): Ready<BuildingSource> =>
  demand === null
    ? readyBuilding(studied, drawnBy)
    : { ok: true, value: demandBuilding(demand, studied, drawnBy) };

/** Those days as a building. */
export const demandBuilding = (
  { series, from, isSharedEqually, unsureShare, lacks }: DemandDays,
  studied: Study,
  seed: number,
): BuildingSource => ({
  ...recordedSource({ ...buildingOf(series), from, lacks, isSharedEqually, unsureShare }, studied, seed),
  isGiven: true,
});

/**
 * Days from a recording in its clean form, as `import` writes it.
 *
 * @throws Refusal when the file is not that, holds no current for each line of the supply, or no whole day.
 */
async function demandFrom(
  path: string,
  { lines }: Study,
  world: Surroundings,
): Promise<Omit<DemandDays, "lacks">> {
  const reader = new CleanSeriesReader();
  const decoder = new TextDecoder();
  try {
    for await (const chunk of world.readChunks(path)) {
      reader.push(decoder.decode(chunk, { stream: true }));
      if (reader.isRefused) break;
    }
  } catch (error) {
    throw new Refusal(`${path}: ${whyUnreadable(error)}`);
  }
  reader.push(decoder.decode());
  const read = reader.end();
  if (!read.ok) {
    const { line, found, message } = read.problem;
    throw new Refusal(
      visible(
        `${path}, line ${line}: found ${found}. ${message} This command reads what underfuse import FILE --csv OUT writes.`,
      ),
    );
  }
  const { startMs, stepS, unit, channels } = read.series;
  if (unit !== "A")
    throw new Refusal(
      `${path} holds ${unit}, and the simulation needs the current of each line. Import it again with --amperes, --voltage, --power-factor and --lines.`,
      EXIT.cannotTell,
    );
  const [first] = channels;
  const alone = first?.line === null ? first : undefined;
  const misfit = alone === undefined ? null : whyMisfit(alone.onLines, lines);
  if (misfit !== null) throw new Refusal(`${path} ${misfit}`, EXIT.cannotTell);
  const found = lines.map((line) => channels.find((channel) => channel.line === line) ?? alone);
  const absent = lines.filter((_, index) => found[index] === undefined);
  if (absent.length > 0)
    throw new Refusal(
      `${path} has no current of ${absent.join(", ")}. Record all lines of the supply.`,
      EXIT.cannotTell,
    );
  const series = found.map((channel) => ({
    intervalS: stepS,
    currentA: channel?.values ?? new Float64Array(),
  }));
  if (86_400 % stepS !== 0)
    throw new Refusal(
      `${path} holds intervals of ${stepS} s, which do not divide a day. Record in intervals that do, such as 1, 5, 10 or 60 s.`,
      EXIT.cannotTell,
    );
  const days = localDays({ startMs, series, zone: ZONE });
  if (days === null)
    throw new Refusal(
      `${path} holds no whole day from midnight to midnight. Record at least one.`,
      EXIT.cannotTell,
    );
  const empty = lines.filter((_, index) => !holdsReadings(days.series[index]));
  if (empty.length > 0)
    throw new Refusal(`${path} holds no reading of ${empty.join(", ")} in its whole days.`, EXIT.cannotTell);
  return {
    ...days,
    unsureShare: unsureShareOf(channels),
    isSharedEqually: alone !== undefined && lines.length > 1,
  };
}

/** Share of the readings of some channels that were estimated or are questionable. */
function unsureShareOf(channels: readonly RecordedChannel[]): number {
  const coverages = channels.map(coverageOf);
  const sum = (of: (coverage: Coverage) => number) => coverages.reduce((total, one) => total + of(one), 0);
  const unsure = sum(({ estimatedCount, questionableCount }) => estimatedCount + questionableCount);
  return unsure === 0 ? 0 : unsure / (unsure + sum(({ recordedCount }) => recordedCount));
}

/** Why a current of no named line is not for the lines of a supply; null where it is. */
function whyMisfit(onLines: 1 | 3 | undefined, lines: Study["lines"]): string | null {
  const supply = `the supply of the job has ${lines.length === 1 ? "one line" : lines.join(", ")}`;
  if (lines.length === 1)
    return onLines === 3
      ? `holds a third of what all lines carried together, and ${supply}. Import it again with --lines 1.`
      : null;
  if (onLines === 3) return null;
  return onLines === 1
    ? `holds the current of one line, and ${supply}. Record each line and import them together with --value and three columns; or, where the file holds what all lines took together, import it again with --lines 3, which shares it equally.`
    : `holds one current and does not say of which line, and ${supply}. Import it again: with --value and three columns, one for each line; or with --lines 3, where the same current is to be taken for each.`;
}
