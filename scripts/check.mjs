// Everything a change must pass, what fails soonest first: `npm test`, which is what CI runs.
import { spawnSync } from "node:child_process";

const steps = [
  ["format and lint", "biome", ["ci", "--error-on-warnings", "."]],
  ["types", "tsc", ["--project", "."]],
  ["unused code and dependencies", "knip", []],
  ["tests", "vitest", ["run"]],
];
for (const [what, command, words] of steps) {
  console.log(`\n${what}`);
  const { status } = spawnSync("npx", ["--no-install", command, ...words], {
    stdio: "inherit",
    shell: process.platform === "win32",
  });
  if (status !== 0) {
    console.error(`\n${what}: not passed. Mend it and run the same command again.`);
    process.exit(status ?? 1);
  }
}
