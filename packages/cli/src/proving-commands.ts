import {
  chainOfJob,
  type Diagnosis,
  diagnose,
  diagnosisJson,
  diagnosisView,
  nextMeasurements,
  type OpenJob,
  parseReadings,
  parseReadingsValue,
  predictSteps,
  proofJson,
  proofOf,
  proofView,
  type ReadingsResult,
} from "@underfuse/engine";
import { GREAT_BRITAIN } from "@underfuse/knowledge";
import { type Command, InvalidArgumentError } from "commander";
import { EXIT, Refusal } from "./exit-status.ts";
import { judgedTraces, type TraceFile, traceFiles, tracesJson } from "./judged-traces.ts";
import { loadJob, problemText, readSmall } from "./load-job.ts";
import { diagnosisText, predictionText, proofText } from "./print-proving.ts";
import { tracesText } from "./print-trace.ts";
import { readingsFromCsv } from "./read-readings.ts";
import { isTrace } from "./read-trace.ts";
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

  const proveTraces = async (
    path: string,
    files: readonly TraceFile[],
    options: { json?: true; timeOut?: number },
  ): Promise<void> => {
    const view = judgedTraces(path, await loadJob(path, world), {
      files,
      timeOutS: options.timeOut ?? null,
      onIso: world.today(),
    });
    if (options.json) printJson(tracesJson(view));
    else print(tracesText(view.view, world.isColourful));
    end(
      {
        proved: EXIT.allPass,
        failed: EXIT.fails,
        "cannot-tell": EXIT.cannotTell,
        "not-applicable": EXIT.cannotTell,
      }[view.verdict],
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
      else print(predictionText(steps, chainOfJob(open.job, open.tree)?.places ?? [], world.isColourful));
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
      "<recorded...>",
      "readings, JSON or a table of comma-separated values; or one or more traces, tables with a column of time",
    )
    .option(
      "--time-out <seconds>",
      "for traces: longest time to the fallback; the job's own time-out when left out",
      positive,
    )
    .option(...json)
    .action(async (path: string, recorded: string[], options: { json?: true; timeOut?: number }) => {
      const files = await traceFiles(recorded, world);
      const [readings = "", ...others] = recorded;
      const isOfTraces = files.map(({ text }) => isTrace(text));
      if (!isOfTraces.includes(false)) {
        await proveTraces(path, files, options);
        return;
      }
      if (others.length > 0)
        throw new Refusal(
          `${files[isOfTraces.indexOf(false)]?.file} has no column of time, so it is no trace. Give one file of readings, or traces only.`,
        );
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

export function positive(text: string): number {
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
