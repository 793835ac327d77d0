#!/usr/bin/env node
// Stands here so that installing finds a command to link; the bundle beside it is built afterwards.
import { existsSync } from "node:fs";

const bundle = new URL("../dist/underfuse.js", import.meta.url);
if (existsSync(bundle)) await import(bundle.href);
else {
  console.error("underfuse is not built yet. Run: npm start");
  process.exitCode = 64;
}
