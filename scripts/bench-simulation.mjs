// Times a year of simulation alone, beside the same year in C where there is a compiler; part of `npm run bench`.
import { runBundled } from "./run-bundled.mjs";

await runBundled("bench-simulation");
