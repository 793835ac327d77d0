import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import * as engine from "./index.ts";

const root = new URL("./", import.meta.url);
const examples = readdirSync(root, { recursive: true, encoding: "utf8" })
  .filter((file) => file.endsWith(".ts") && !file.endsWith(".test.ts"))
  .flatMap((file) =>
    [...readFileSync(new URL(file, root), "utf8").matchAll(/^ \* (\w+)\((.*)\); \/\/ → (.+)$/gm)].map(
      ([, name = "", words = "", result = ""]) => ({ file, name, words, result }),
    ),
  );

describe("examples in docstrings", () => {
  it("were found", () => expect(examples.length).toBeGreaterThanOrEqual(6));
  it.each(examples)("$file: $name($words) → $result", ({ name, words, result }) => {
    const call = (engine as unknown as Record<string, (...words: unknown[]) => unknown>)[name];
    const values = new Function(`return [${words}]`)() as unknown[];
    const got = call?.(...values);
    const wanted: unknown = new Function(`return ${result}`)();
    if (typeof wanted !== "number") expect(got).toEqual(wanted);
    // As precise as it is printed.
    else expect(got).toBeCloseTo(wanted, (result.split(".")[1] ?? "").length);
  });
});
