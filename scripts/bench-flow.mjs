// Times the four-wire flow alone and prints the seconds of each pass over the reference networks, as JSON.
// Called by reference/networks/timing.py, which times another solver in the same run.
import { runBundled } from "./run-bundled.mjs";

await runBundled("bench-flow");
