// Runs a TypeScript script of this folder: bundles it with the packages it imports, then imports the bundle.
import { build } from "esbuild";

export async function runBundled(name) {
  const outfile = `out/${name}.mjs`;
  await build({
    entryPoints: [`scripts/${name}.ts`],
    outfile,
    bundle: true,
    platform: "node",
    target: "node20",
    format: "esm",
    logLevel: "warning",
  });
  await import(`../${outfile}`);
}
