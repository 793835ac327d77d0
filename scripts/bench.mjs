// Times the engine and the command line: `npm run bench`. Figures are kept in docs/benchmarks.md.
import { runBundled } from "./run-bundled.mjs";

await import("./build.mjs");
await runBundled("bench");
await runBundled("bench-simulation");
