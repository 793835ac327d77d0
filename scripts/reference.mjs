// Writes the parts of docs/ that come from the code anew: `npm run reference`.
import { runBundled } from "./run-bundled.mjs";

await runBundled("reference");
