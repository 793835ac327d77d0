import {
  CLOCKS,
  cleanText,
  DATE_ORDERS,
  type ImportResult,
  importFrom,
  intervalSeriesOf,
  type RecordedSeries,
  type Statements,
  UNITS,
} from "@underfuse/intake";
import { type Command, InvalidArgumentError, Option } from "commander";
import { EXIT, Refusal } from "./exit-status.ts";
import { whyUnreadable } from "./load-job.ts";
import { importJson, importText } from "./print-import.ts";
import { progress } from "./progress.ts";
import type { Surroundings } from "./surroundings.ts";

interface ImportOptions extends Omit<Statements, "decimal" | "delimiter" | "stepS" | "value"> {
  readonly decimal?: keyof typeof DECIMALS;
  readonly delimiter?: keyof typeof DELIMITERS;
  readonly step?: number;
  readonly value?: readonly string[];
  readonly json?: true;
  readonly csv?: string;
  readonly amperes?: true;
  readonly voltage?: number;
  readonly powerFactor?: number;
  readonly lines?: "1" | "3";
}

const DELIMITERS = { comma: ",", semicolon: ";", tab: "\t", stroke: "|" } as const;
const DECIMALS = { point: ".", comma: "," } as const;

/** The command that reads a meter's or a logger's own file. */
export function addImportCommand(program: Command, world: Surroundings, end: (status: number) => void): void {
  const choice = (flags: string, description: string, choices: readonly string[]): Option =>
    new Option(flags, description).choices([...choices]);
  program
    .command("import")
    .description("read a recording of demand as a meter or logger wrote it, and say what it is taken to be")
    .argument("<file>", "table of values, or Green Button XML")
    .option("--csv <out>", "write the recording in its clean form; never over another file")
    .option("--json", "plain data for other programs")
    .addOption(choice("--delimiter <mark>", "what parts the columns", Object.keys(DELIMITERS)))
    .addOption(choice("--decimal <mark>", "mark before the fraction", Object.keys(DECIMALS)))
    .option("--date <column>", "column of the date, by heading or as #1")
    .option("--time <column>", "column of the time of day")
    .option("--period <column>", "column of the number of the interval in its day")
    .option("--value <column...>", "column of the value; three for L1, L2 and L3")
    .option("--quality <column>", "column of the quality")
    .option("--meter <name>", "which meter, where the file holds several")
    .addOption(choice("--date-order <order>", "order of day and month", DATE_ORDERS))
    .addOption(choice("--labels <edge>", "what a time names of its interval", ["start", "end"]))
    .addOption(choice("--unit <unit>", "unit of the values", UNITS))
    .addOption(choice("--readings <kind>", "what a value is", ["interval", "register"]))
    .addOption(choice("--clock <clock>", "clock that the times were written by", CLOCKS))
    .option("--zone <zone>", "time zone of the site, such as Europe/London")
    .option("--step <seconds>", "length of an interval", seconds)
    .addOption(choice("--negative <kind>", "what values below zero are", ["net", "absent"]))
    .option("--amperes", "turn energy or power into current, with the three that follow")
    .option("--voltage <volts>", "line to neutral", number(50, 1000))
    .option("--power-factor <ratio>", "of the whole building", number(0.05, 1))
    .addOption(
      choice(
        "--lines <count>",
        "lines that a value without a line is for; three share energy or power equally, as is assumed",
        ["1", "3"],
      ),
    )
    .action(async (path: string, options: ImportOptions) => {
      refuseUnused(options);
      const result = await imported(path, statements(options), world);
      const asked = result.state === "series" ? forLines(result.series, options) : null;
      const amperes = asked?.unit === "A" ? asked : null;
      if (options.json) world.out(`${JSON.stringify(importJson(result, amperes), null, 2)}\n`);
      else world.out(`${importText(result, path, { amperes, isColourful: world.isColourful })}\n`);
      if (result.state !== "series") {
        end(result.state === "questions" ? EXIT.cannotTell : EXIT.unreadable);
        return;
      }
      if (options.csv === undefined) return;
      await world
        .writeChunks(options.csv, cleanText(asked ?? result.series))
        .catch((error: { code?: string }) => {
          throw new Refusal(
            error.code === "EEXIST"
              ? `${options.csv} is there already and is left as it is. Choose another name.`
              : `${options.csv}: it could not be written there. Choose another place.`,
          );
        });
      if (!options.json) world.out(`\nWritten to ${options.csv}\n`);
    });
}

/** What the importer makes of a file. Shows how far it has come, and stops when the person asks it to. */
async function imported(path: string, stated: Statements, world: Surroundings): Promise<ImportResult> {
  const stopping = new AbortController();
  const unlisten = world.onStop(() => stopping.abort());
  const shown = progress("Reading", world);
  try {
    const size = await world.sizeOf(path);
    return await importFrom(world.readChunks(path), {
      stated,
      signal: stopping.signal,
      onProgress: ({ bytesRead }) => shown.update(Math.min(1, bytesRead / size)),
    });
  } catch (error) {
    if (stopping.signal.aborted)
      throw new Refusal("Stopped before the file was read. Nothing was written.", EXIT.stopped);
    throw new Refusal(`${path}: ${whyUnreadable(error)}`);
  } finally {
    unlisten();
    shown.clear();
  }
}

/** The series as it is written: as currents where asked, and a current of no named line with the lines it is for. */
function forLines(series: RecordedSeries, options: ImportOptions): RecordedSeries {
  const asked = options.amperes ? asAmperes(series, options) : series;
  const { lines } = options;
  if (asked.unit !== "A" && lines !== undefined)
    throw new Refusal(
      "--lines says which lines a current is for, and this recording is energy or power. Add --amperes with --voltage and --power-factor, or leave --lines out.",
    );
  if (asked.unit !== "A" || lines === undefined) return asked;
  const onLines = lines === "3" ? 3 : 1;
  return {
    ...asked,
    channels: asked.channels.map((channel) => (channel.line === null ? { ...channel, onLines } : channel)),
  };
}

/** What was stated to no effect would be believed to have one. */
function refuseUnused({ amperes, voltage, powerFactor }: ImportOptions): void {
  if (amperes || (voltage === undefined && powerFactor === undefined)) return;
  throw new Refusal(
    "--voltage and --power-factor turn energy or power into current, which only --amperes asks for. Add --amperes, or leave them out.",
  );
}

/** The same recording as currents. Said to be worked out, not measured. */
function asAmperes(series: RecordedSeries, { voltage, powerFactor, lines }: ImportOptions): RecordedSeries {
  if (series.unit === "A") return series;
  if (
    voltage === undefined ||
    powerFactor === undefined ||
    (lines === undefined && series.channels.length === 1)
  )
    throw new Refusal(
      "A current follows from energy or power only with a voltage, a power factor and the lines that share it. State --voltage, --power-factor and --lines.",
    );
  const by = { voltageV: voltage, powerFactor, lineCount: lines === "3" ? 3 : 1 } as const;
  return {
    ...series,
    unit: "A",
    channels: series.channels.map((channel) => ({
      ...channel,
      values: intervalSeriesOf(series, channel, by).currentA,
    })),
  };
}

/** What was stated on the command line, under the names of the importer. */
function statements({ delimiter, decimal, step, ...options }: ImportOptions): Statements {
  const { json, csv, amperes, voltage, powerFactor, lines, ...stated } = options;
  return {
    ...stated,
    ...(delimiter === undefined ? {} : { delimiter: DELIMITERS[delimiter] }),
    ...(decimal === undefined ? {} : { decimal: DECIMALS[decimal] }),
    ...(step === undefined ? {} : { stepS: step }),
  };
}

function seconds(text: string): number {
  const value = Number(text);
  if (!(Number.isInteger(value) && value >= 1 && value <= 3600))
    throw new InvalidArgumentError("Write whole seconds from 1 to 3600, such as 1800.");
  return value;
}

const number =
  (least: number, most: number) =>
  (text: string): number => {
    const value = Number(text);
    if (!(value >= least && value <= most))
      throw new InvalidArgumentError(`Write a number from ${least} to ${most}.`);
    return value;
  };
