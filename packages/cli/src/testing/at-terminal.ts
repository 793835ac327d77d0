import { mkdtempSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { machine } from "../machine.ts";
import { run } from "../program.ts";
import type { Surroundings } from "../surroundings.ts";

/** What one command line printed, and its exit status. */
export interface Printed {
  readonly status: number;
  readonly out: string;
  readonly err: string;
}

/** Runs a command line on this machine's files, on a fixed day, and keeps what it prints. */
export async function atTerminal(
  words: readonly string[],
  instead: Partial<Surroundings> = {},
): Promise<Printed> {
  let [out, err] = ["", ""];
  const status = await run(words, {
    ...machine,
    isColourful: false,
    out: (text) => {
      out += text;
    },
    err: (text) => {
      err += text;
    },
    today: () => "2026-11-25",
    ...instead,
  });
  return { status, out, err };
}

export const exampleJob = (name: string): string =>
  fileURLToPath(new URL(`../../../../examples/${name}/job.json`, import.meta.url));

/** A new empty folder. */
export const emptyFolder = (): string => mkdtempSync(join(tmpdir(), "underfuse-"));
