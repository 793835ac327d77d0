import type { Job } from "./schema/job.ts";

const WIDTH = 110;

/**
 * A job as text: two spaces of indent, and every fact on one line where it fits, so that a job reads
 * like a survey sheet and two versions can be compared line by line.
 */
export const serialiseJob = (job: Job): string => `${write(job, "")}\n`;

function write(value: unknown, indent: string): string {
  const flat = writeFlat(value);
  if (typeof value !== "object" || value === null) return flat;
  if (indent !== "" && indent.length + flat.length <= WIDTH && isShallow(value)) return flat;
  const deeper = `${indent}  `;
  const entries = Array.isArray(value)
    ? value.map((entry) => write(entry, deeper))
    : Object.entries(value).map(([key, entry]) => `${JSON.stringify(key)}: ${write(entry, deeper)}`);
  const [open, close] = Array.isArray(value) ? ["[", "]"] : ["{", "}"];
  return entries.length === 0
    ? open + close
    : `${open}\n${deeper}${entries.join(`,\n${deeper}`)}\n${indent}${close}`;
}

function writeFlat(value: unknown): string {
  if (Array.isArray(value)) return `[${value.map(writeFlat).join(", ")}]`;
  if (typeof value !== "object" || value === null) return JSON.stringify(value);
  const entries = Object.entries(value).filter(([, entry]) => entry !== undefined);
  if (entries.length === 0) return "{}";
  return `{ ${entries.map(([key, entry]) => `${JSON.stringify(key)}: ${writeFlat(entry)}`).join(", ")} }`;
}

const isShallow = (value: object): boolean =>
  Object.values(value).every((entry) => typeof entry !== "object" || entry === null || Array.isArray(entry));
