import {
  type Assessment,
  assess,
  assessmentJson,
  assessmentView,
  blankManagedJob,
  type Diagnosis,
  diagnosisView,
  type FindingView,
  isIsoDate,
  jobJsonSchema,
  nextMeasurements,
  openJob,
  type ProvingViews,
  portfolioJsonSchema,
  proofOf,
  proofView,
  readingsJsonSchema,
  registerMapJsonSchema,
  registersJsonSchema,
  reportHtml,
  serialiseJob,
} from "@underfuse/engine";
import { GREAT_BRITAIN } from "@underfuse/knowledge";
import { Command, CommanderError, InvalidArgumentError, Option } from "commander";
import { addDecodeCommand } from "./decode-command.ts";
import { type DemandOptions, givenDemand, withDemand } from "./demand-file.ts";
import { assessmentStatus, EXIT, Refusal } from "./exit-status.ts";
import { addFittingCommand } from "./fitting-command.ts";
import { addImportCommand } from "./import-command.ts";
import { judgedTraces, traceFiles } from "./judged-traces.ts";
import { type LoadedJob, loadJob } from "./load-job.ts";
import { addPortfolioCommand } from "./portfolio-command.ts";
import { Printer, wrapped } from "./print.ts";
import { addProvingCommands, diagnosedFrom, positive } from "./proving-commands.ts";
import { addSimulationCommands } from "./simulation-commands.ts";
import type { Surroundings } from "./surroundings.ts";
import { nightsOf, throughTime } from "./year-through-time.ts";

interface Common {
  readonly json?: true;
  readonly on?: string;
}

interface ReportOptions extends Common, DemandOptions {
  readonly output: string;
  readonly readings?: string;
  readonly trace: readonly string[];
  readonly timeOut?: number;
  readonly serve?: true;
}

const JURISDICTIONS = ["england", "wales", "scotland", "northern-ireland", "ireland"] as const;

/** Runs one command line and gives its exit status. Never throws. */
export async function run(words: readonly string[], world: Surroundings): Promise<number> {
  let status: number = EXIT.allPass;
  const program = commands(world, (value) => {
    status = value;
  });
  try {
    await program.parseAsync([...words], { from: "user" });
    return status;
  } catch (error) {
    if (error instanceof CommanderError) return error.exitCode === 0 ? EXIT.allPass : EXIT.unreadable;
    if (error instanceof Refusal) {
      world.err(`${error.message}\n`);
      return error.status;
    }
    world.err(
      `${wrapped("Something went wrong that is this program's fault, not the job's. No file has been changed. Please report it with the job, and say:")}\n  ${error instanceof Error ? error.message : String(error)}\n`,
    );
    return EXIT.unreadable;
  }
}

function commands(world: Surroundings, end: (status: number) => void): Command {
  const printer = new Printer(world.isColourful);
  const program = new Command("underfuse")
    .description("Assess a load-managed car charge point behind one main fuse.")
    .exitOverride()
    .configureOutput({ writeOut: world.out, writeErr: world.err })
    .configureHelp({ helpWidth: 80 })
    .addHelpText(
      "after",
      "\nExit status: 0 every check passes, 1 a check fails, 2 something cannot be told,\n64 the job or the command could not be read, 130 stopped by Ctrl-C: what was finished\nis told.",
    );

  const about = (name: string, description: string): Command =>
    program
      .command(name)
      .description(description)
      .argument("<job>", "job file")
      .option("--json", "plain data for other programs")
      .addOption(
        new Option("--on <date>", "assess as on this day, year-month-day (today when left out)").argParser(
          isoDate,
        ),
      );
  const assessed = async (path: string, common: Common): Promise<Assessment> =>
    assessLoaded(await loadJob(path, world), common);
  const assessLoaded = ({ open, series, unread }: LoadedJob, { on }: Common): Assessment => {
    for (const [id, why] of unread) world.err(`${wrapped(`Recording "${id}", ${why}. It is left out.`)}\n`);
    return assess(open, GREAT_BRITAIN, { onIso: on ?? world.today(), series, unread });
  };
  const print = (text: string): void => world.out(`${text}\n`);
  const printJson = (value: unknown): void => print(JSON.stringify(value, null, 2));

  about("assess", "verdict, findings by stage, what is missing, options").action(
    async (path: string, options: Common) => {
      const assessment = await assessed(path, options);
      if (options.json) printJson(assessmentJson(assessment));
      else print(printer.assessment(assessmentView(assessment)));
      end(assessmentStatus(assessment));
    },
  );

  about("explain", "one finding down to facts and figures")
    .argument("<finding>", "finding, as `assess` names it, or a rule for all its findings")
    .action(async (path: string, wanted: string, options: Common) => {
      const assessment = await assessed(path, options);
      const all = assessmentView(assessment).stages.flatMap(({ findings }) => findings);
      const found = all.filter(({ id }) => id === wanted || id.startsWith(`${wanted}/`));
      if (found.length === 0) throw new Refusal(noSuchFinding(wanted, all));
      if (options.json) printJson(found);
      else print(found.map((view) => printer.explanation(view)).join("\n\n"));
    });

  about("missing", "what to find out, most valuable first").action(async (path: string, options: Common) => {
    const assessment = await assessed(path, options);
    const { missingNow, missingLater } = assessmentView(assessment);
    if (options.json) {
      printJson(assessment.missing);
      return;
    }
    print(`Before the work is settled:\n${printer.missing(missingNow)}`);
    if (missingLater.length > 0) print(`\nOn the day and afterwards:\n${printer.missing(missingLater)}`);
  });

  withDemand(about("options", "the ways of doing the job, side by side")).action(
    async (path: string, options: Common & DemandOptions) => {
      const assessment = await assessed(path, options);
      const demand = await givenDemand(options, assessment.study, world);
      const nights = await nightsOf(assessment, world, demand);
      if (options.json) printJson((assessmentJson(assessment, nights) as { options: unknown }).options);
      else print(printer.options(assessmentView(assessment, nights).options));
    },
  );

  withDemand(about("report", "everything on one page that opens without a network"))
    .requiredOption("-o, --output <file>", "where to write it")
    .option("--readings <file>", "readings of the metering chain, to weigh and to prove")
    .option(
      "--trace <file>",
      "recorded trace of the load manager, to judge; as often as there are traces",
      (file: string, before: readonly string[]) => [...before, file],
      [] as readonly string[],
    )
    .option("--time-out <seconds>", "for traces: longest time to the fallback", positive)
    .option("--serve", "show it on this machine until stopped")
    .action(async (path: string, options: ReportOptions) => {
      const loaded = await loadJob(path, world);
      const { output, readings, trace } = options;
      const given = [readings, options.demand].filter((file) => file !== undefined);
      const inputs = [...loaded.files, ...given, ...trace];
      for (const file of inputs) {
        if (await world.isSameFile(output, file))
          throw new Refusal(
            `${output} is ${file === path ? "the job file itself" : file === readings ? "the file of readings" : file === options.demand ? "the recording" : trace.includes(file) ? "a recorded trace" : "a recording of the job"} and is left as it is. Choose another name for the report.`,
          );
      }
      if (trace.length === 0 && options.timeOut !== undefined)
        throw new Refusal("--time-out is for traces, and no --trace was given.");
      const proving =
        readings === undefined ? null : provingViews(await diagnosedFrom(path, loaded.open, readings, world));
      const traces =
        trace.length === 0
          ? null
          : judgedTraces(path, loaded, {
              files: await traceFiles(trace, world),
              timeOutS: options.timeOut ?? null,
              onIso: options.on ?? world.today(),
            }).view;
      const assessment = assessLoaded(loaded, options);
      const demand = await givenDemand(options, assessment.study, world);
      const run = await throughTime(assessment, demand, world);
      const page = reportHtml(assessment, { proving, traces, ...run });
      await world.writeText(options.output, page, true).catch(() => {
        throw new Refusal(`${options.output}: the report could not be written there. Choose another place.`);
      });
      print(`Report written to ${options.output}`);
      if (options.serve) print(`Report shown at ${await world.serve(page)} (stop with Ctrl-C)`);
    });

  addProvingCommands(program, world, end);
  addFittingCommand(program, world);
  addSimulationCommands(program, world, end);
  addImportCommand(program, world, end);
  addDecodeCommand(program, world, end);
  addPortfolioCommand(program, world, end);

  program
    .command("schema")
    .description(
      "the job format as JSON Schema, or that of readings, a register map, raw registers or a portfolio",
    )
    .addOption(
      new Option("--readings", "the format of readings").conflicts(["registers", "dump", "portfolio"]),
    )
    .addOption(new Option("--registers", "the format of a register map").conflicts(["dump", "portfolio"]))
    .addOption(new Option("--dump", "the format of registers as they were read").conflicts("portfolio"))
    .option("--portfolio", "the format of a portfolio")
    .action((wanted: { readings?: true; registers?: true; dump?: true; portfolio?: true }) => {
      if (wanted.readings) printJson(readingsJsonSchema());
      else if (wanted.registers) printJson(registerMapJsonSchema());
      else if (wanted.dump) printJson(registersJsonSchema());
      else if (wanted.portfolio) printJson(portfolioJsonSchema());
      else printJson(jobJsonSchema());
    });

  program
    .command("new")
    .description("begin a job: a survey sheet on which nothing is known yet")
    .argument("<job>", "job file to write; it must not be there yet")
    .option("--title <words>", "what the job is called", "New job")
    .addOption(
      new Option("--in <jurisdiction>", "whose rules apply").choices(JURISDICTIONS).default("england"),
    )
    .addOption(
      new Option("--phases <number>", "line conductors of the supply").choices(["1", "3"]).default("1"),
    )
    .action(
      async (
        path: string,
        options: { title: string; in: (typeof JURISDICTIONS)[number]; phases: "1" | "3" },
      ) => {
        const id =
          options.title
            .toLowerCase()
            .replace(/[^a-z0-9]+/g, "-")
            .replace(/^-|-$/g, "") || "job";
        const job = blankManagedJob({
          id,
          title: options.title,
          jurisdiction: options.in,
          phases: options.phases === "3" ? 3 : 1,
        });
        const text = serialiseJob(job);
        if (options.title.trim() === "" || !openJob(text).ok) {
          throw new Refusal(
            "That title cannot be used, and nothing was written. Write one line of at most 500 characters, not empty and without control characters.",
          );
        }
        await world.writeText(path, text, false).catch((error: { code?: string }) => {
          throw new Refusal(
            error.code === "EEXIST"
              ? `${path} is there already and is left as it is. Choose another name.`
              : `${path}: it could not be written there. Choose another place.`,
          );
        });
        print(
          `Written to ${path}. Fill in what you know; underfuse missing ${path} says what is worth finding out first.`,
        );
      },
    );

  return program;
}

function provingViews(diagnosis: Diagnosis): ProvingViews {
  const { faults } = GREAT_BRITAIN;
  return {
    diagnosis: diagnosisView(diagnosis, nextMeasurements(diagnosis), faults),
    proof: proofView(proofOf(diagnosis), faults),
  };
}

function isoDate(text: string): string {
  if (!isIsoDate(text)) throw new InvalidArgumentError("Write it year-month-day, such as 2026-11-25.");
  return text;
}

function noSuchFinding(wanted: string, all: readonly FindingView[]): string {
  const near = all.filter(({ id }) => id.includes(wanted.split("/")[0] ?? wanted)).map(({ id }) => id);
  const list = (near.length > 0 ? near : all.map(({ id }) => id)).map((id) => `  ${id}`).join("\n");
  return `There is no finding "${wanted}". ${near.length > 0 ? "Near it:" : "The findings are:"}\n${list}`;
}
