import { existsSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { expect } from "vitest";

/** A committed drawing is looked at when it changes: a mismatch leaves `…-changed.svg` beside it. */
export function expectAsCommitted(folder: URL, name: string, svg: string): void {
  const committed = new URL(`${name}.svg`, folder);
  const other = new URL(`${name}-changed.svg`, folder);
  const before = existsSync(committed) ? readFileSync(committed, "utf8") : "";
  if (svg === before) rmSync(other, { force: true });
  else writeFileSync(other, svg);
  expect(
    svg === before,
    `compare ${name}.svg with ${name}-changed.svg; if the new one is right, put it in its place`,
  ).toBe(true);
}
