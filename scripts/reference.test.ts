import { existsSync, readdirSync, readFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { GB_RULES, PROBLEM_CODES, RETIRED_CODES, THROWN_CODES } from "@underfuse/engine";
import { INTAKE_CODES } from "@underfuse/intake";
import { GREAT_BRITAIN } from "@underfuse/knowledge";
import { Ajv2020 } from "ajv/dist/2020.js";
import { describe, expect, it } from "vitest";
import {
  jobSchemaText,
  RULE_LIST_PATH,
  ruleList,
  rulePage,
  rulePagePath,
  SCHEMA_PATH,
} from "./reference-texts.ts";

const read = (path: string): string => readFileSync(path, "utf8");
const RENEW = "npm run reference writes it anew; read what changed";

/** An independent validator with the committed schema. */
const isJob = new Ajv2020({ strict: true, allowUnionTypes: true, validateFormats: false }).compile(
  JSON.parse(read(SCHEMA_PATH)),
);

describe("docs/reference", () => {
  it("holds the job format as the program prints it", () => {
    expect(read(SCHEMA_PATH) === jobSchemaText(), RENEW).toBe(true);
  });
  it.each(["terraced-house", "village-hall", "farmhouse"])(
    "describes %s, says a validator of JSON Schema",
    (name) => {
      const job = JSON.parse(read(`examples/${name}/job.json`));
      expect(isJob(job), JSON.stringify(isJob.errors?.slice(0, 3))).toBe(true);
      expect(isJob({ ...job, title: undefined })).toBe(false);
      expect(isJob({ ...job, supply: { ...job.supply, declaredZeOhm: 0.35 } })).toBe(false);
      expect(isJob({ ...job, surplus: 1 })).toBe(false);
    },
  );
  it("explains every code there is or was, and no other", () => {
    const sections = [...read("docs/reference/errors.md").matchAll(/^### `([A-Z_]+)`$/gm)].map(
      ([, code]) => code,
    );
    expect(sections.toSorted()).toEqual(
      [...THROWN_CODES, ...PROBLEM_CODES, ...INTAKE_CODES, ...RETIRED_CODES].toSorted(),
    );
  });
});

describe("docs/rules", () => {
  it("has a page for every rule and no other", () => {
    const pages = readdirSync("docs/rules").filter((name) => name !== "README.md");
    expect(pages.toSorted()).toEqual(GB_RULES.map(({ id }) => `${id}.md`).toSorted());
  });
  it.each(GB_RULES.map((rule) => [rule.id, rule] as const))("%s says what the rule says", (_id, rule) => {
    const page = read(rulePagePath(rule));
    expect(page === rulePage(rule, page), RENEW).toBe(true);
    for (const heading of ["What it checks", "Why", "What to do", "Source", "What it may say"])
      expect(page).toMatch(new RegExp(`^## ${heading}\\n\\n\\S`, "m"));
    expect(GREAT_BRITAIN.clauses[rule.id]?.printed.length, "a clause").toBeGreaterThan(0);
  });
  it("are listed", () => {
    expect(read(RULE_LIST_PATH) === ruleList(), RENEW).toBe(true);
  });
  it("a rule has its file and its test, and no other file pretends to be one", () => {
    const files = readdirSync("packages/engine/src/rules/gb");
    for (const { id } of GB_RULES)
      expect(files).toEqual(expect.arrayContaining([`${id}.ts`, `${id}.test.ts`]));
    expect(files.filter((file) => file.endsWith(".test.ts")).length).toBe(GB_RULES.length);
  });
});

describe("links in the documents", () => {
  const documents = [
    "README.md",
    "CONTRIBUTING.md",
    "CHANGELOG.md",
    "examples/README.md",
    "reference/networks/README.md",
  ]
    .concat(readdirSync("docs", { recursive: true, encoding: "utf8" }).map((file) => `docs/${file}`))
    .concat(["engine", "knowledge", "intake", "cli"].map((name) => `packages/${name}/README.md`))
    .filter((path) => path.endsWith(".md"));
  it.each(documents)("%s leads nowhere that is not there", (path) => {
    const links = [...read(path).matchAll(/\]\((?!https?:|#)([^)#]+)/g)].map(([, target = ""]) => target);
    expect(links.filter((target) => !existsSync(join(dirname(path), target)))).toEqual([]);
  });
  it("were found", () => expect(documents.length).toBeGreaterThan(45));
});
