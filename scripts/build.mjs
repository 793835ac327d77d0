// Bundles the command line into one file that Node runs without any other.
import { chmodSync } from "node:fs";
import { build } from "esbuild";

const outfile = "packages/cli/dist/underfuse.js";
await build({
  entryPoints: ["packages/cli/src/main.ts"],
  outfile,
  bundle: true,
  platform: "node",
  target: "node20",
  format: "esm",
  minify: true,
  legalComments: "inline",
  banner: {
    js: "import { createRequire } from 'node:module'; const require = createRequire(import.meta.url);",
  },
  logLevel: "warning",
});
chmodSync(outfile, 0o755);
