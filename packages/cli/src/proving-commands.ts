import {
  type Diagnosis,
  diagnose,
  diagnosisJson,
  diagnosisView,
  judgeTrace,
  nextMeasurements,
  type OpenJob,
  parseReadings,
  parseReadingsValue,
  predictSteps,
  proofJson,
  proofOf,
  proofView,
  type ReadingsResult,
  study,
  traceBoundsOf,
  traceJson,
  traceView,
} from "@underfuse/engine";
import { GREAT_BRITAIN } from "@underfuse/knowledge";
import { type Command, InvalidArgumentError } from "commander";
import { EXIT, Refusal } from "./exit-status.ts";
import { loadJob, problemText, readSmall, visible } from "./load-job.ts";
import { diagnosisText, predictionText, proofText } from "./print-proving.ts";
import { traceText } from "./print-trace.ts";
import { readingsFromCsv } from "./read-readings.ts";
import { isTrace, readTrace } from "./read-trace.ts";
import type { Surroundings } from "./surroundings.ts";

const NO_METERING = "has no metering chain yet. Enter its current transformers, then ask again.";

/** The commands about the metering chain: what it should show, what is wrong with it, what is proved of it. */
export function addProvingCommands(
  program: Command,
  world: Surroundings,
  end: (status: number) => void,
): void {
  const print = (text: string): void => world.out(`${text}\n`);
  const printJson = (value: unknown): void => print(JSON.stringify(value, null, 2));
  const json = ["--json", "plain data for other programs"] as const;

  const diagnosed = async (jobPath: string, readingsPath: string): Promise<Diagnosis> =>
    diagnosedFrom(jobPath, (await loadJob(jobPath, world)).open, readingsPath, world);

  const proveTrace = async (
    path: string,
    { file, text }: { readonly file: string; readonly text: string },
    options: { json?: true; timeOut?: number },
  ): Promise<void> => {
    const { open, series, unread } = await loadJob(path, world);
    if (open.job.limiter === null)
      throw new Refusal(
        `${path} has no load manager yet. Enter it with its limit and fallback, then ask again.`,
      );
    const read = readTrace(text);
    if (!read.ok) throw new Refusal(`${file}: ${visible(read.message)}. The file has not been changed.`);
    const studied = study(open, GREAT_BRITAIN, { onIso: world.today(), series, unread });
    const judged = judgeTrace(read.trace, traceBoundsOf(studied, options.timeOut ?? null));
    const remarks = read.remarks.map(visible);
    if (options.json) printJson(traceJson(judged, remarks));
    else print(traceText(traceView(judged, remarks), world.isColourful));
    end(
      {
        proved: EXIT.allPass,
        failed: EXIT.fails,
        "cannot-tell": EXIT.cannotTell,
        "not-applicable": EXIT.cannotTell,
      }[judged.verdict],
    );
  };

  program
    .command("predict")
    .description("what the meter should show, step by step, with a sound chain")
    .argument("<job>", "job file")
    .option(...json)
    .action(async (path: string, options: { json?: true }) => {
      const { open } = await loadJob(path, world);
      const steps = predictSteps(open);
      if (steps === null) throw new Refusal(`${path} ${NO_METERING}`);
      if (options.json) printJson(steps);
      else print(predictionText(steps, world.isColourful));
    });

  program
    .command("diagnose")
    .description("what is wrong with the metering chain, and what to measure next")
    .argument("<job>", "job file")
    .argument("<readings>", "readings, JSON or a table of comma-separated values")
    .option(...json)
    .action(async (path: string, readings: string, options: { json?: true }) => {
      const diagnosis = await diagnosed(path, readings);
      const next = nextMeasurements(diagnosis);
      if (options.json) printJson(diagnosisJson(diagnosis, next));
      else print(diagnosisText(diagnosisView(diagnosis, next, GREAT_BRITAIN.faults), world.isColourful));
      const faults = diagnosis.classes[0]?.members[0]?.faults.length ?? 0;
      end(!diagnosis.isTold ? EXIT.cannotTell : faults === 0 ? EXIT.allPass : EXIT.fails);
    });

  program
    .command("prove")
    .description(
      "what readings prove of the metering chain, or a recorded trace of the load manager, line by line",
    )
    .argument("<job>", "job file")
    .argument(
      "<recorded>",
      "readings, JSON or a table of comma-separated values; or a trace, a table with a column of time",
    )
    .option("--time-out <seconds>", "for a trace: time-out after which the car falls back, as set", positive)
    .option(...json)
    .action(async (path: string, readings: string, options: { json?: true; timeOut?: number }) => {
      const text = await readSmall(readings, world, TRACE_BYTES);
      if (isTrace(text)) {
        await proveTrace(path, { file: readings, text }, options);
        return;
      }
      if (options.timeOut !== undefined)
        throw new Refusal(`--time-out is for a trace, and ${readings} has no column of time.`);
      const diagnosis = await diagnosed(path, readings);
      const proof = proofOf(diagnosis);
      if (options.json) printJson(proofJson(proof));
      else print(proofText(proofView(proof, GREAT_BRITAIN.faults), world.isColourful));
      const faults = diagnosis.classes[0]?.members[0]?.faults.length ?? 0;
      end(proof.isComplete ? EXIT.allPass : diagnosis.isTold && faults > 0 ? EXIT.fails : EXIT.cannotTell);
    });
}

/**
 * Readings of a file weighed against a job.
 *
 * @throws Refusal when the file cannot be read, or the job has no metering chain.
 */
export async function diagnosedFrom(
  jobPath: string,
  open: OpenJob,
  readingsPath: string,
  world: Surroundings,
): Promise<Diagnosis> {
  const read = await readingsAt(readingsPath, world);
  if (!read.ok) throw new Refusal(problemText(readingsPath, read.problems));
  const result = diagnose(open, read.readings, GREAT_BRITAIN.faults);
  if (!result.ok) throw new Refusal(`${jobPath} ${NO_METERING}`);
  return result.diagnosis;
}

/** Largest trace that is read: some four million rows of three lines. [bytes] */
const TRACE_BYTES = 200_000_000;

function positive(text: string): number {
  const value = Number(text);
  if (!(value > 0 && value <= 86_400)) throw new InvalidArgumentError("Write seconds, such as 15.");
  return value;
}

async function readingsAt(path: string, world: Surroundings): Promise<ReadingsResult> {
  const text = await readSmall(path, world);
  if (/^\s*[{[]/.test(text)) return parseReadings(text);
  const table = readingsFromCsv(text);
  if (!table.ok) throw new Refusal(`${path}: ${table.message}. The file has not been changed.`);
  return parseReadingsValue(table.value);
}
