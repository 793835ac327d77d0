import { readdirSync, readFileSync } from "node:fs";
import { cruise, type ICruiseResult } from "dependency-cruiser";
import extractTSConfig from "dependency-cruiser/config-utl/extract-ts-config";
import { describe, expect, it } from "vitest";
import { FENCES } from "./fences.ts";

/** Every module is parsed; a busy machine takes its time. */
const READS_EVERYTHING_MS = 60_000;

describe("import fences", () => {
  it(
    "hold, in a tree that was really read",
    async () => {
      const { output } = await cruise(
        ["packages"],
        { ruleSet: { forbidden: FENCES.forbidden }, ...FENCES.options, validate: true } as never,
        {},
        { tsConfig: extractTSConfig("tsconfig.json") },
      );
      const { modules, summary } = output as ICruiseResult;
      expect(summary.violations.map(({ rule, from, to }) => `${rule.name}: ${from} → ${to}`)).toEqual([]);
      // A reader that understands no TypeScript reports no violations either: it must have seen the arrows.
      const engine = modules.filter(({ source }) => source.startsWith("packages/engine/src/"));
      expect(engine.length).toBeGreaterThan(120);
      expect(engine.flatMap(({ dependencies }) => dependencies).length).toBeGreaterThan(400);
      const knowledge = modules.find(({ source }) => source === "packages/knowledge/src/figures.ts");
      expect(knowledge?.dependencies.map(({ resolved }) => resolved)).toContain(
        "packages/engine/src/index.ts",
      );
    },
    READS_EVERYTHING_MS,
  );
});

describe("the engine", () => {
  const root = new URL("../packages/engine/src/", import.meta.url);
  const files = readdirSync(root, { recursive: true, encoding: "utf8" }).filter(
    (file) => file.endsWith(".ts") && !file.endsWith(".test.ts") && !file.startsWith("testing"),
  );
  const OUTSIDE =
    /\b(Date\.now|new Date\(\)|Math\.random|process\.|console\.|fetch\(|setTimeout|setInterval|localStorage|navigator\.|Intl\.|toLocale|performance\.)/;

  it("was read", () => expect(files.length).toBeGreaterThan(120));
  it.each(files)("%s reads no clock, file, network, storage, locale or environment", (file) => {
    const code = readFileSync(new URL(file, root), "utf8");
    expect(OUTSIDE.exec(code)?.[0]).toBeUndefined();
  });
});
