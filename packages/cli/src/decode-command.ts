import {
  type DecodedDump,
  decodeDump,
  parseReadings,
  parseReadingsValue,
  parseRegisterMap,
  REGISTER_MAP_FORMAT,
  type RegisterDump,
  type RegisterMap,
  shiftedBy,
} from "@underfuse/engine";
import { GREAT_BRITAIN } from "@underfuse/knowledge";
import { type Command, InvalidArgumentError } from "commander";
import { EXIT, Refusal } from "./exit-status.ts";
import { problemText, readSmall } from "./load-job.ts";
import { wrapped } from "./print.ts";
import { decodedText } from "./print-decoded.ts";
import { readRegisters } from "./read-registers.ts";
import { newReadings, stepOf } from "./readings-of-decoded.ts";
import type { Surroundings } from "./surroundings.ts";

interface Options {
  readonly json?: true;
  readonly shift: number;
  readonly most?: number;
  readonly readings?: string;
  readonly step?: string;
  readonly car?: number;
  readonly carLines: string;
  readonly load?: number;
  readonly loadLine: string;
}

/** A file of 65 536 registers, each with a note of some length. [bytes] */
const DUMP_BYTES = 4_000_000;

/** The command that makes numbers of a meter's registers, and says which of them are to be trusted. */
export function addDecodeCommand(program: Command, world: Surroundings, end: (status: number) => void): void {
  program
    .command("decode")
    .description("numbers from a meter's registers, each with what speaks for it and against it")
    .argument(
      "<files...>",
      "registers as read, JSON or a table of address and value; and, unless the meter follows SunSpec, its register map",
    )
    .option("--shift <number>", "add this to every address of the registers", whole, 0)
    .option(
      "--most <amperes>",
      "largest current there can be in a line, such as twice the main fuse",
      positive,
    )
    .option("--readings <file>", "write the numbers as a step of readings, or add it to a file of them")
    .option("--step <words>", "what that step is called")
    .option("--car <amperes>", "current offered to the car in that step", amperes)
    .option("--car-lines <lines>", "lines it draws on", "L1")
    .option("--load <watts>", "known load switched on in that step", positive)
    .option("--load-line <line>", "line of that load", "L1")
    .option("--json", "plain data for other programs")
    .action(async (files: string[], options: Options) => {
      const { map, dump } = await filesOf(files, world);
      const [least, most] = (["supplyVoltageMin", "supplyVoltageMax"] as const).map(latestValue);
      const decoded = decodeDump(moved(dump, options.shift), map, {
        sunspec: GREAT_BRITAIN.metering.sunspec,
        limits: {
          voltageV: [least ?? 0, most ?? 0],
          frequencyHz: FREQUENCY_HZ,
          mostA: options.most ?? MOST_A,
        },
      });
      const remarks = options.readings === undefined ? [] : await addStep(decoded, options, world);
      if (options.json) world.out(`${JSON.stringify({ ...decoded, readings: remarks }, null, 2)}\n`);
      else {
        world.out(`${decodedText(decoded, world.isColourful)}\n`);
        for (const remark of remarks) world.out(`${wrapped(remark)}\n`);
      }
      end(statusOf(decoded));
    });
}

/** The largest rated primary a job can hold. [A] */
const MOST_A = 10_000;
/** Room for any hour of a public supply. [Hz] */
const FREQUENCY_HZ = [49, 51] as const;

const latestValue = (id: "supplyVoltageMin" | "supplyVoltageMax"): number =>
  GREAT_BRITAIN.figures[id].series.at(-1)?.value ?? 0;

/** Each file says itself what it is, so their order does not matter. */
async function filesOf(
  files: readonly string[],
  world: Surroundings,
): Promise<{ readonly map: RegisterMap | null; readonly dump: RegisterDump }> {
  if (files.length > 2)
    throw new Refusal(
      `${files.length} files were given; give one of registers and, at most, one register map.`,
    );
  const texts = await Promise.all(
    files.map(async (path) => ({ path, text: await readSmall(path, world, DUMP_BYTES) })),
  );
  const isMap = ({ text }: { readonly text: string }) =>
    /^\uFEFF?\s*\{/.test(text) && text.slice(0, 2000).includes(`"${REGISTER_MAP_FORMAT}"`);
  const [maps, dumps] = [texts.filter(isMap), texts.filter((file) => !isMap(file))];
  const [dumpFile] = dumps;
  if (maps.length === 2)
    throw new Refusal("Both files are register maps. Give the registers as they were read too.");
  if (dumpFile === undefined)
    throw new Refusal(`${files[0]} is a register map. Give the registers as they were read too.`);
  if (dumps.length === 2)
    throw new Refusal(
      `Neither file is a register map: a map begins with "format": "${REGISTER_MAP_FORMAT}". Give one file of registers at a time, and the meter's map beside it.`,
    );
  const dump = readRegisters(dumpFile.text, dumpFile.path);
  if (!dump.ok) throw new Refusal(problemText(dumpFile.path, dump.problems));
  const [mapFile] = maps;
  if (mapFile === undefined) return { map: null, dump: dump.dump };
  const map = parseRegisterMap(mapFile.text);
  if (!map.ok) throw new Refusal(problemText(mapFile.path, map.problems));
  return { map: map.map, dump: dump.dump };
}

function moved(dump: RegisterDump, shift: number): RegisterDump {
  if (shift === 0) return dump;
  const registers = shiftedBy(dump.registers, -shift);
  const lost = dump.registers.size - registers.size;
  return {
    ...dump,
    registers,
    remarks: [
      ...dump.remarks,
      `${shift} was added to every address, as --shift asks.`,
      ...(lost > 0 ? [`${lost} registers fell outside 0 to 65535 by that and are left out.`] : []),
    ],
  };
}

/** Writes the step, and says in sentences what was written and what was not. */
async function addStep(
  decoded: DecodedDump,
  options: Options,
  world: Surroundings,
): Promise<readonly string[]> {
  const { readings: path = "", step: given, car, load } = options;
  const [table] = decoded.tables;
  if (table === undefined) throw new Refusal("Nothing could be decoded, so no readings were written.");
  const before = await existing(path, world);
  const id = given ?? `step ${(before?.steps.length ?? 0) + 1}`;
  if (before?.steps.some((step) => step.id === id))
    throw new Refusal(
      `${path} has a step "${id}" already and is left as it is. Give another name with --step.`,
    );
  const { step, leftOut } = stepOf(table.rows, {
    id,
    carA: car ?? null,
    carLines: options.carLines.toUpperCase().match(/L[123]/g) ?? [],
    load: load === undefined ? null : { line: options.loadLine.toUpperCase(), watts: load },
  });
  const value = before === null ? newReadings(step) : { ...before, steps: [...before.steps, step] };
  const read = parseReadingsValue(value);
  if (!read.ok) throw new Refusal(problemText(path, read.problems));
  await world.writeText(path, `${JSON.stringify(value, null, 2)}\n`, before !== null).catch(() => {
    throw new Refusal(`${path}: the readings could not be written there. Choose another place.`);
  });
  return [
    "",
    `Step "${id}" written to ${path}: ${
      car === undefined ? "the car draws nothing (--car says otherwise)" : `the car is offered ${car} A`
    }, ${load === undefined ? "no known load is on (--load says otherwise)" : `a load of ${load} W is on`}.`,
    ...leftOut.map((words) => `Not in it: ${words}`),
    ...(decoded.tables.length > 1
      ? [`It holds the numbers of ${table.title}; those of the other tables are not in it.`]
      : []),
  ];
}

/** The readings of a file that is there; null where there is none yet. */
async function existing(path: string, world: Surroundings) {
  const isThere = await world.sizeOf(path).then(
    () => true,
    () => false,
  );
  if (!isThere) return null;
  const read = parseReadings(await readSmall(path, world));
  if (!read.ok)
    throw new Refusal(
      `${problemText(path, read.problems)}\nReadings are added only to a file of readings in JSON.`,
    );
  return read.readings;
}

/** 1 where something cannot be right, else 2 where something cannot be told, else 0. */
function statusOf({ tables }: DecodedDump): number {
  const rows = tables.flatMap((table) => table.rows);
  const checks = tables.flatMap((table) => table.checks);
  if (
    rows.some(({ plausible }) => plausible === "no") ||
    checks.some(({ state }) => state === "odd-one") ||
    tables.some(({ order }) => order?.isAgainstMap)
  )
    return EXIT.fails;
  const isOpen =
    tables.length === 0 ||
    rows.some(
      ({ plausible, value, unit }) => plausible === "cannot-tell" && value !== null && unit !== "Wh",
    ) ||
    checks.some(({ state }) => state !== "agrees") ||
    tables.some(({ order, unread }) => order?.state === "cannot-tell" || unread.length > 0);
  return isOpen ? EXIT.cannotTell : EXIT.allPass;
}

function whole(text: string): number {
  const value = Number(text);
  if (!Number.isInteger(value) || Math.abs(value) > 65_535)
    throw new InvalidArgumentError("Write a whole number such as -1.");
  return value;
}

function positive(text: string): number {
  const value = Number(text);
  if (!(value > 0 && value <= 1e6)) throw new InvalidArgumentError("Write a number above 0, such as 120.");
  return value;
}

function amperes(text: string): number {
  const value = Number(text);
  if (text.trim() === "" || !(value >= 0 && value <= 1000))
    throw new InvalidArgumentError("Write amperes, such as 16.");
  return value;
}
