// Installs the locked dependencies when node_modules is absent or older than the lock file.
import { spawnSync } from "node:child_process";
import { existsSync, statSync } from "node:fs";

const marker = "node_modules/.package-lock.json";
const isInstalled = existsSync(marker) && statSync(marker).mtimeMs >= statSync("package-lock.json").mtimeMs;

if (!isInstalled) {
  console.log("Installing the locked dependencies (first run only) …");
  const { status } = spawnSync("npm", ["ci"], { stdio: "inherit", shell: process.platform === "win32" });
  if (status !== 0) {
    console.error("npm ci did not finish. Check the network connection, then run the same command again.");
    process.exit(status ?? 1);
  }
}
