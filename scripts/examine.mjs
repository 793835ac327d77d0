// Sits the whole examination and writes docs/examination.md: `npm run examine`. Takes some minutes.
import { runBundled } from "./run-bundled.mjs";

await runBundled("examine");
