import { machine } from "./machine.ts";
import { run } from "./program.ts";

// A reader that stops reading, such as `head`, is no error.
process.stdout.on("error", (error: { code?: string }) => {
  if (error.code === "EPIPE") process.exit(0);
});

process.exitCode = await run(process.argv.slice(2), machine);
