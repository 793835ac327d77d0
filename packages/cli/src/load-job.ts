import { dirname, join } from "node:path";
import { type IntervalSeries, MAX_CHARACTERS, type OpenJob, openJob, type Problem } from "@underfuse/engine";
import { Refusal } from "./exit-status.ts";
import { MAX_INTERVALS, readSeries } from "./read-series.ts";
import type { Surroundings } from "./surroundings.ts";

export interface LoadedJob {
  readonly open: OpenJob;
  readonly series: ReadonlyMap<string, IntervalSeries>;
  /** Why a recording could not be read, by its id. */
  readonly unread: ReadonlyMap<string, string>;
  /** The job file and every recording it names, read or not. */
  readonly files: readonly string[];
}

/**
 * Reads a job file and the recordings beside it. The files are only read, never changed.
 *
 * @throws Refusal when the job cannot be opened, with every problem in words.
 */
export async function loadJob(path: string, world: Surroundings): Promise<LoadedJob> {
  const opened = openJob(await readSmall(path, world));
  if (!opened.ok) throw new Refusal(problemText(path, opened.problems));
  const series = new Map<string, IntervalSeries>();
  const unread = new Map<string, string>();
  const files = [path];
  let room = MAX_INTERVALS;
  for (const recording of opened.document.demand.recordings) {
    if (recording.kind !== "interval-series") continue;
    const file = join(dirname(path), recording.file);
    files.push(file);
    const read = await readRecording(file, recording, room, world);
    if (read.ok) {
      series.set(recording.id, read.series);
      room -= read.series.currentA.length;
    } else unread.set(recording.id, visible(`${recording.file}: ${read.message}`));
  }
  return { open: opened, series, unread, files };
}

/** Text of a file no larger than a job can be, or than is said. */
export async function readSmall(
  path: string,
  world: Surroundings,
  // Every character takes at least one byte: a larger file need not be read to be refused.
  maxBytes = 4 * MAX_CHARACTERS,
): Promise<string> {
  try {
    const size = await world.sizeOf(path);
    if (size > maxBytes) {
      throw new Refusal(
        maxBytes > 4 * MAX_CHARACTERS
          ? `${path}: the file has ${size} bytes, more than the ${maxBytes} that are read. Cut it to the hours of the trial.`
          : `${path}: the file has ${size} bytes, more than a job can have. Check that this is the job file; keep recordings in files of their own beside it.`,
      );
    }
    return await world.readText(path);
  } catch (error) {
    if (error instanceof Refusal) throw error;
    throw new Refusal(`${path}: ${whyUnreadable(error)}`);
  }
}

export const whyUnreadable = (error: unknown): string =>
  ({
    ENOENT: "there is no such file. Check the name.",
    EISDIR: "that is a folder. Name a file in it.",
    EACCES: "you may not read it. Check its permissions.",
  })[(error as { code?: string }).code ?? ""] ?? "it could not be read.";

async function readRecording(
  path: string,
  recording: Parameters<typeof readSeries>[1],
  room: number,
  world: Surroundings,
) {
  try {
    return readSeries(await world.readText(path), recording, room);
  } catch (error) {
    return { ok: false, message: whyUnreadable(error).replace(/\.$/, "") } as const;
  }
}

/** Problems as a person reads them: where, what stood there, what to do. */
export function problemText(path: string, problems: readonly Problem[]): string {
  const lead = `${path} cannot be opened: ${problems.length === 1 ? "one problem" : `${problems.length} problems`}. The file has not been changed.`;
  const lines = problems.map(({ code, path: place, received, message }) =>
    [`  ${place === "" ? "the file" : place}`, `    found: ${received}`, `    ${message} [${code}]`]
      .map(visible)
      .join("\n"),
  );
  return [lead, ...lines].join("\n");
}

/** Text of a file nobody has checked, its control characters written out so that none acts on the terminal. */
export const visible = (text: string): string =>
  text.replace(
    /[\p{Cc}\u202A-\u202E\u2066-\u2069]/gu,
    (character) => `\\u${character.charCodeAt(0).toString(16).padStart(4, "0")}`,
  );
