import { readdirSync, readFileSync } from "node:fs";
import { GREAT_BRITAIN } from "@underfuse/knowledge";
import { describe, expect, it } from "vitest";
import { blankElectrode, blankRods } from "../job/blank.ts";
import { known, notApplicable, serialiseJob } from "../job/index.ts";
import { assessedExample, EXAMPLES, example } from "../testing/examples.ts";
import { changed } from "../testing/findings.ts";
import { reEvaluate } from "../testing/re-evaluate.ts";
import { opened } from "../testing/sketch.ts";
import { soundJob } from "../testing/sound-job.ts";
import { isKnown, type Known } from "../worked/index.ts";
import { type Assessment, assess } from "./assess.ts";
import { quantitiesOf } from "./finding.ts";

/** Every quantity an assessment shows. */
const shownBy = ({ findings, options, study }: Assessment): readonly Known[] =>
  [
    ...findings.flatMap(quantitiesOf),
    ...options.flatMap(({ demand, limit, fallback, chargePointA }) => [
      demand,
      limit,
      fallback,
      chargePointA,
    ]),
    ...study.demand.flatMap(({ unmanaged, managed, existing }) => [
      unmanaged.low,
      unmanaged.high,
      managed?.low,
      managed?.high,
      ...[existing.used, ...existing.others].flatMap(({ low, high }) => [low, high]),
    ]),
  ]
    .filter((quantity) => quantity !== null && quantity !== undefined)
    .filter(isKnown);

describe("the examples", () => {
  it.each(EXAMPLES)("%s is written as the program writes it", (name) => {
    const text = readFileSync(new URL(`../../../../examples/${name}/job.json`, import.meta.url), "utf8");
    expect(text).toBe(serialiseJob(example(name).document));
  });
  it("one fails something real, one cannot be told", () => {
    const verdicts = (name: (typeof EXAMPLES)[number]) =>
      assessedExample(name).findings.map(({ ruleId, verdict }) => `${ruleId} ${verdict}`);
    expect(verdicts("farmhouse")).toContain("voltage-drop fail");
    expect(verdicts("village-hall")).toContain("transformer-coverage fail");
    expect(verdicts("terraced-house")).toContain("supply-carries-demand cannot-tell");
    expect(verdicts("terraced-house").filter((line) => line.endsWith("fail"))).toEqual([]);
  });
  it.each(EXAMPLES)("%s: every step says what it computes (independent evaluator, 1e-9)", (name) => {
    const { formulas, disagreements } = reEvaluate(shownBy(assessedExample(name)));
    expect(disagreements).toEqual([]);
    expect(formulas.length).toBeGreaterThan(100);
  });
});

describe("no formula goes unproved", () => {
  /** Jobs that between them lead through every formula there is. */
  const inputs = { onIso: "2026-11-25", series: new Map() };
  const assessed = (changes: Parameters<typeof changed>[0]) =>
    assess(opened(changed(changes)), GREAT_BRITAIN, inputs);
  const armoured = { construction: known("armoured"), protective: { form: known("armour"), mm2: known(22) } };
  const run = (change: object) => ({
    ...(soundJob().cables.find(({ id }) => id === "way-to-car")?.run as object),
    ...change,
  });
  const rods = (count: number) => ({
    ...blankElectrode(),
    rods: {
      ...blankRods(),
      soilResistivityOhmM: known(50),
      lengthM: known(2.4),
      diameterMm: known(14.2),
      count: known(count),
      spacingM: known(3),
    },
  });
  const jobs = [
    ...EXAMPLES.map(assessedExample),
    assessed({}),
    assessed({
      "supply.operator.agreedImportLimitA": known(80),
      "supply.declaredFaultCurrentKa": known(16),
      "supply.operator.earthingConductorMinMm2": known(16),
    }),
    assessed({ "cables[way-to-car].run": run(armoured), "earthing.arrangement": known("TN-S") }),
    assessed({
      "cables[way-to-car].run.protective.mm2": known(2.5),
      "cables[way-to-car].run.protective.form": known("core"),
    }),
    assessed({
      "nodes[way].overcurrent.standard": known("bs-88-3"),
      "nodes[way].overcurrent.curve": notApplicable("a fuse"),
      "cables[way-to-car].run.protective.mm2": known(2.5),
    }),
    assessed({
      "nodes[way].overcurrent.standard": known("bs-88-2"),
      "nodes[way].overcurrent.curve": notApplicable("a fuse"),
    }),
    assessed({ "nodes[way].overcurrent.standard": known("bs-3036") }),
    assessed({
      "nodes[way].overcurrent.standard": known("bs-1361-ii"),
      "nodes[way].overcurrent.ratingA": known(45),
    }),
    assessed({ "earthing.arrangement": known("TT"), "earthing.electrode": rods(1) }),
    assessed({ "earthing.arrangement": known("TT"), "earthing.electrode": rods(3) }),
    assessed({
      "nodes[car].openPen.method": known("low-resistance-electrode"),
      "nodes[car].openPen.electrode": { ...blankElectrode(), resistanceOhm: known(2) },
    }),
    assessed({ "nodes[house].purpose": "heating-and-power", "demand.recordings": [] }),
    assessed({ "site.premises": known("other"), "demand.recordings": [] }),
    assessed({ "tests.circuits[way].zsOhm": known(0.1) }),
    assessed({ "nodes[car].exportA": known(16) }),
    threePhaseElectrode(),
  ];
  const met = new Set(jobs.flatMap((job) => reEvaluate(shownBy(job)).formulas));

  it("holds in every job, to 1e-9", () => {
    expect(jobs.flatMap((job) => reEvaluate(shownBy(job)).disagreements)).toEqual([]);
  });
  it("every formula written in the engine is met in one of them", () => {
    const root = new URL("../", import.meta.url);
    const files = readdirSync(root, { recursive: true, encoding: "utf8" }).filter(
      (file) => file.endsWith(".ts") && !file.endsWith(".test.ts") && !file.startsWith("testing"),
    );
    const written = files.flatMap((file) => formulasIn(readFileSync(new URL(file, root), "utf8")));
    expect(written.length).toBeGreaterThanOrEqual(40);
    const shown = [...met];
    expect(written.filter((formula) => !shown.some((text) => formula.test(text))).map(String)).toEqual([]);
  });
});

/** The formulas a file writes down, as patterns: what a template fills in may be anything. */
function formulasIn(file: string): readonly RegExp[] {
  const code = file.replace(/^\s*(\/\*|\*|\/\/).*$/gm, "");
  return [...code.matchAll(/formula: (.*)/g)].flatMap(([, rest = ""]) =>
    [...rest.matchAll(/"([^"]*)"|`([^`]*)`/g)]
      .map(([, plain, template]) => plain ?? template ?? "")
      .filter((text) => /[a-z]/i.test(text) && text !== "low" && text !== "string")
      .map((text) => {
        const pattern = text
          .split(/\$\{[^}]*\}/)
          .map((part) => part.replace(/[.*+?^${}()|[\]\\]/g, "\\$&"))
          .join(".*");
        // A text that ends in an operator is the head of a longer formula.
        return new RegExp(`^${pattern}${/[*+] $/.test(text) ? "" : "$"}`);
      }),
  );
}

/** The village hall on TN-C-S with an electrode as its open-neutral method. */
function threePhaseElectrode(): Assessment {
  const { document } = example("village-hall");
  const job = changed(
    {
      "earthing.arrangement": known("TN-C-S"),
      "nodes[point-a].openPen.method": known("low-resistance-electrode"),
      "nodes[point-a].openPen.electrode": { ...blankElectrode(), resistanceOhm: known(2) },
    },
    document,
  );
  return assess(opened(job), GREAT_BRITAIN, { onIso: "2026-11-25", series: new Map() });
}
