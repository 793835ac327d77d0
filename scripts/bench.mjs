// Times the engine and the command line: `npm run bench`. Figures are kept in docs/benchmarks.md.
import "./build.mjs";
import { build } from "esbuild";

const outfile = "out/bench.mjs";
await build({
  entryPoints: ["scripts/bench.ts"],
  outfile,
  bundle: true,
  platform: "node",
  target: "node20",
  format: "esm",
  logLevel: "warning",
});
await import(`../${outfile}`);
