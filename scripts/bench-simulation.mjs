// Times a year of simulation beside the same year in C: `npm run bench`. Figures are kept in docs/benchmarks.md.
import { runBundled } from "./run-bundled.mjs";

await runBundled("bench-simulation");
