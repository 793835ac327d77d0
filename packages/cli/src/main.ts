import { isMainThread } from "node:worker_threads";
import { machine } from "./machine.ts";
import { PORTFOLIO_WORK } from "./portfolio-work.ts";
import { run } from "./program.ts";
import { SWEEP_WORK } from "./sweep-work.ts";
import { serveWork } from "./worker-pool.ts";

if (isMainThread) {
  // A reader that stops reading, such as `head`, is no error.
  process.stdout.on("error", (error: { code?: string }) => {
    if (error.code === "EPIPE") process.exit(0);
  });
  // Bundled, this module is the whole program: a thread begins here too, and takes the other way.
  process.exitCode = await run(process.argv.slice(2), { ...machine, workerFile: new URL(import.meta.url) });
} else serveWork([PORTFOLIO_WORK, SWEEP_WORK]);
