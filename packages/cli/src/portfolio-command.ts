import {
  type Portfolio,
  type PortfolioBlock,
  type PortfolioOutcome,
  parsePortfolio,
  portfolioOutcome,
} from "@underfuse/engine";
import { GREAT_BRITAIN } from "@underfuse/knowledge";
import { type Command, InvalidArgumentError, Option } from "commander";
import { EXIT, Refusal } from "./exit-status.ts";
import { problemText, readSmall } from "./load-job.ts";
import { PORTFOLIO_WORK, portfolioPieces } from "./portfolio-work.ts";
import { portfolioCsv, portfolioText } from "./print-portfolio.ts";
import { progress } from "./progress.ts";
import type { Surroundings } from "./surroundings.ts";
import { doPieces } from "./worker-pool.ts";

interface Options {
  readonly seed: number;
  readonly workers?: number;
  readonly json?: true;
  readonly csv?: string;
}

/** The command that draws a street many times and says how high it rises, with its cars. */
export function addPortfolioCommand(
  program: Command,
  world: Surroundings,
  end: (status: number) => void,
): void {
  program
    .command("portfolio")
    .description("many homes and cars behind one feeder: how high they rise together")
    .argument("<file>", "portfolio: homes, shares, cars, limit, days")
    .addOption(
      new Option("--seed <number>", "another seed draws other streets; the same gives the same")
        .argParser(wholeNumber(0, Number.MAX_SAFE_INTEGER))
        .default(1),
    )
    .addOption(
      new Option("--workers <number>", "threads to work on; the result does not depend on it").argParser(
        wholeNumber(1, 256),
      ),
    )
    .option("--csv <file>", "write every day of every drawn street to a table; never over another file")
    .option("--json", "plain data for other programs")
    .action(async (path: string, options: Options) => {
      const parsed = parsePortfolio(await readSmall(path, world), GREAT_BRITAIN.demand.appliances);
      if (!parsed.ok) throw new Refusal(problemText(path, parsed.problems));
      const { portfolio } = parsed;
      const blocks = await drawn(portfolio, options, world);
      const outcome = portfolioOutcome(portfolio, blocks);
      if (outcome === null)
        throw new Refusal("Stopped before the first day was done. Nothing was written.", EXIT.stopped);
      world.out(
        `${options.json ? json(portfolio, options.seed, outcome) : portfolioText(portfolio, outcome, world.isColourful)}\n`,
      );
      if (options.csv !== undefined)
        await world
          .writeText(options.csv, portfolioCsv(portfolio, outcome), false)
          .catch((error: { code?: string }) => {
            throw new Refusal(
              error.code === "EEXIST"
                ? `${options.csv} is there already and is left as it is. Choose another name for the table.`
                : `${options.csv}: the table could not be written there. Choose another place.`,
            );
          });
      end(statusOf(outcome));
    });
}

/** The blocks that were done: all of them, or those there were when the person asked to stop. */
async function drawn(
  portfolio: Portfolio,
  { seed, workers }: Options,
  world: Surroundings,
): Promise<readonly PortfolioBlock[]> {
  const pieces = portfolioPieces(portfolio);
  const blocks: PortfolioBlock[] = [];
  const stopping = new AbortController();
  const unlisten = world.onStop(() => stopping.abort());
  const shown = progress("Drawing streets", world);
  shown.update(0);
  try {
    await doPieces(
      PORTFOLIO_WORK,
      {
        shared: { portfolio, seed },
        pieces,
        threads: workers ?? world.threadCount,
        stop: stopping.signal,
        onResult: (block) => {
          blocks.push(block);
          shown.update(blocks.length / pieces.length);
        },
      },
      world,
    );
  } finally {
    unlisten();
    shown.clear();
  }
  return blocks;
}

/** 1 when a drawn street was above the feeder's limit. */
function statusOf({ drawsOverShare, homeDays, homeDaysAsked }: PortfolioOutcome): number {
  if (homeDays < homeDaysAsked) return EXIT.stopped;
  return drawsOverShare !== null && drawsOverShare > 0 ? EXIT.fails : EXIT.allPass;
}

function json(portfolio: Portfolio, seed: number, { days: _days, ...outcome }: PortfolioOutcome): string {
  return JSON.stringify(
    { portfolio, seed, isComplete: outcome.homeDays === outcome.homeDaysAsked, outcome },
    null,
    2,
  );
}

function wholeNumber(least: number, most: number): (text: string) => number {
  return (text) => {
    const value = Number(text);
    if (!/^\d+$/.test(text) || value < least || value > most)
      throw new InvalidArgumentError(`Write a whole number from ${least} to ${most}.`);
    return value;
  };
}
