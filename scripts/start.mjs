// The main job in one command: builds, assesses the demo job, writes its report and shows it.
import { spawn, spawnSync } from "node:child_process";
import { mkdirSync } from "node:fs";

const job = "examples/terraced-house/job.json";
const report = "out/terraced-house.html";
const underfuse = "packages/cli/dist/underfuse.js";

await import("./build.mjs");
mkdirSync("out", { recursive: true });
spawnSync(process.execPath, [underfuse, "assess", job], { stdio: "inherit" });
console.log();
spawn(process.execPath, [underfuse, "report", job, "-o", report, "--serve"], { stdio: "inherit" });
