import { isReady, NEED_WORDS, orderOfWork, terminalSchedule, type WorkStep } from "@underfuse/engine";
import type { Command } from "commander";
import { createColors } from "picocolors";
import { loadJob } from "./load-job.ts";
import { wrapped } from "./print.ts";
import type { Surroundings } from "./surroundings.ts";

/** The command that lists the work on site in a safe order, and every wire of the metering chain. */
export function addFittingCommand(program: Command, world: Surroundings): void {
  program
    .command("order")
    .description("the work on site in a safe order, and every wire of the metering chain")
    .argument("<job>", "job file")
    .option("--json", "plain data for other programs")
    .action(async (path: string, options: { json?: true }) => {
      const { open } = await loadJob(path, world);
      const steps = orderOfWork(open);
      const wires = terminalSchedule(open);
      if (options.json) {
        world.out(`${JSON.stringify({ steps, wires }, null, 2)}\n`);
        return;
      }
      const colours = createColors(world.isColourful);
      const rows = wires.map(({ wire, from, to, check }) =>
        wrapped(`${wire}: ${from} → ${to}. ${check}.`, "  "),
      );
      world.out(
        `${[...steps.map((step, index) => stepText(step, index + 1, colours)), ...(rows.length === 0 ? [] : [colours.bold("Wires"), ...rows])].join("\n")}\n`,
      );
    });
}

function stepText(step: WorkStep, number: number, colours: ReturnType<typeof createColors>): string {
  const open = step.needs.flatMap(({ state, ...need }) => (state === "met" ? [] : [{ state, ...need }]));
  return [
    colours.bold(`${String(number).padEnd(4)}${step.title}${isReady(step) ? "" : "  (waits)"}`),
    ...step.does.map((line) => wrapped(line, "    ")),
    ...(step.hold === null ? [] : [colours.yellow(wrapped(`Hold: ${step.hold}`, "    "))]),
    ...open.map(({ words, state, path }) =>
      wrapped(`${NEED_WORDS[state]}: ${words}${path === null ? "" : ` ${path}`}`, "    "),
    ),
    colours.dim(wrapped(`Leaves: ${step.leaves}`, "    ")),
  ].join("\n");
}
