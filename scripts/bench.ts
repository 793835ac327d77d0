import { spawnSync } from "node:child_process";
import { existsSync, readFileSync } from "node:fs";
import {
  assess,
  diagnose,
  faultyChain,
  fourWireFlow,
  type Job,
  judgeTrace,
  nextMeasurements,
  openJob,
  parsePortfolio,
  parseReadings,
  polar,
  portfolioBlock,
  predictReading,
  predictSteps,
  reportHtml,
  type SiteState,
  type Trace,
  traceBoundsOf,
  weightsOf,
} from "@underfuse/engine";
import { Importer, type Statements } from "@underfuse/intake";
import { GREAT_BRITAIN } from "@underfuse/knowledge";
import { Bench } from "tinybench";
import { hypotheses } from "../packages/engine/src/proving/hypotheses.ts";
import { weigh } from "../packages/engine/src/proving/weigh.ts";
import { examinedDesign, question, randomNumbers } from "../packages/engine/src/testing/examination.ts";
import { readNetworks } from "./networks.ts";
import { halfHourRows, halfHourXml, minuteRows } from "./recordings.ts";

const example = (name: string): string => readFileSync(`examples/${name}/job.json`, "utf8");
const inputs = { onIso: "2026-11-25", series: new Map() };
const open = (text: string) => {
  const result = openJob(text);
  if (!result.ok) throw new Error(JSON.stringify(result.problems.slice(0, 3)));
  return result;
};

/** The village hall with more loads on its hall board, until its tree has so many nodes. */
function grown(nodeCount: number): string {
  const job: Job = JSON.parse(example("village-hall"));
  const load = job.nodes.find(({ kind }) => kind === "load");
  const feed = job.cables.find(({ to }) => to === load?.id);
  if (load === undefined || feed === undefined) throw new Error("the village hall has no load");
  for (let index = job.nodes.length; index < nodeCount; index++) {
    job.nodes.push({ ...load, id: `load-${index}`, label: `Load ${index}` });
    job.cables.push({ ...feed, id: `feed-${index}`, to: `load-${index}` });
  }
  return JSON.stringify(job);
}

function sampleSite(): SiteState {
  const phasors = (size: number) => [0, -120, 120].map((degrees) => polar(size, (degrees * Math.PI) / 180));
  return {
    voltageV: phasors(230),
    buildingA: phasors(9),
    chargePointA: phasors(16),
    generationA: phasors(0),
  };
}

/** Ten hours at one second on three lines: an excursion of seven seconds every ten minutes, a loss every hour. */
function tenHours(): Trace {
  const times = Float64Array.from({ length: 36_001 }, (_, second) => second);
  const current = (high: number, low: number) => times.map((s) => (s % 600 < 7 ? high : low + (s % 11) / 10));
  const supply = current(95, 60);
  const car = times.map((s) => (s % 3600 > 1804 && s % 3600 < 2100 ? 6 : 32));
  const events = Array.from({ length: 10 }, (_, hour) => [
    { atS: hour * 3600 + 1800, what: "bus-lost" as const },
    { atS: hour * 3600 + 2100, what: "restored" as const },
  ]).flat();
  return {
    timesS: times,
    supplyA: { L1: supply, L2: supply, L3: supply },
    carA: { L1: car, L2: car, L3: car },
    events,
  };
}

/** Imports a file as a shell hands it over, in pieces of a quarter of a megabyte. */
function importAll(bytes: Uint8Array, stated: Statements = {}): void {
  const importer = new Importer(stated);
  for (let at = 0; at < bytes.length; at += 1 << 18) importer.push(bytes.subarray(at, at + (1 << 18)));
  const result = importer.end();
  if (result.state !== "series") throw new Error(JSON.stringify(result));
}

const bench = new Bench({ time: 1500, warmupTime: 500 });
const largest = example("village-hall");
const opened = open(largest);
const assessment = assess(opened, GREAT_BRITAIN, inputs);
const grownText = grown(2000);
const grownJob = open(grownText);
const flows = readNetworks();
const chain = examinedDesign(3);
const weights = weightsOf(GREAT_BRITAIN.faults);
const everyCause = hypotheses(chain, weights);
const random = randomNumbers(5);
/** Ten steps of one three-phase site, everything read. */
const questions = Array.from({ length: 20 }, (_, index) => {
  const { evidence } = question(chain, weights, index % 3, "V, I, P, Q", random);
  const { steps } = evidence;
  return { ...evidence, steps: [...steps, ...steps.slice(1), ...steps.slice(1)] };
});
let asked = 0;
const readings = parseReadings(readFileSync("examples/village-hall/readings.json", "utf8"));
if (!readings.ok) throw new Error("the example's readings do not open");
const diagnosed = diagnose(opened, readings.readings, GREAT_BRITAIN.faults);
if (!diagnosed.ok) throw new Error(diagnosed.reason);
const site = sampleSite();

const trace = tenHours();
const bounds = { ...traceBoundsOf(assessment.study, 10), limitA: 80, isLimitSet: true, fallbackA: 6 };
if (judgeTrace(trace, bounds).lines.length !== 3) throw new Error("the trace is not judged on three lines");
bench
  .add("assess, largest example", () => assess(opened, GREAT_BRITAIN, inputs))
  .add("open and assess, largest example", () => assess(open(largest), GREAT_BRITAIN, inputs))
  .add("report, largest example", () => reportHtml(assessment))
  .add("assess, 2000 nodes", () => assess(grownJob, GREAT_BRITAIN, inputs))
  .add("open and assess, 2000 nodes", () => assess(open(grownText), GREAT_BRITAIN, inputs))
  .add("judge a trace, ten hours at 1 s", () => judgeTrace(trace, bounds))
  .add(`four-wire flow, ${flows.length} networks`, () => flows.map(fourWireFlow));
bench
  .add("predict one reading, two faults", () =>
    predictReading(
      faultyChain(3, [
        { id: "F05", channels: [1, 2] },
        { id: "F29", factor: 0.5 },
      ]),
      site,
    ),
  )
  .add("predict every planned step", () => predictSteps(opened))
  .add(`every cause prepared, ${everyCause.length}`, () => hypotheses(chain, weights))
  .add("readings weighed, three-phase, ten steps", () =>
    weigh(everyCause, questions[asked++ % 20] as (typeof questions)[number]),
  )
  .add("next measurement", () => nextMeasurements(diagnosed.diagnosis));
const streetDay = parsePortfolio(
  readFileSync("examples/street/portfolio.json", "utf8"),
  GREAT_BRITAIN.demand.appliances,
);
if (!streetDay.ok) throw new Error("the example's portfolio does not open");
const thousand = { ...streetDay.portfolio, homes: 1000, draws: 1 };
const appliances = GREAT_BRITAIN.demand.appliances;
bench.add("a street of 1,000 homes, ten days at one minute", () =>
  portfolioBlock(thousand, appliances, { seed: 1, draw: 0, fromDay: 0, toDay: 10 }),
);
const [dayRows, xml] = [halfHourRows(), halfHourXml()];
bench
  .add("import 17,520 half-hours, table", () => importAll(dayRows))
  .add("import 17,520 half-hours, XML", () => importAll(xml));
await bench.run();

const rows = bench.tasks.map(({ name, result }) => {
  if (!("latency" in result)) throw new Error(`${name} did not finish`);
  return { name, medianMs: result.latency.p50, samples: result.latency.samplesCount };
});

const minutes = minuteRows();
const minuteStatements = {
  value: ["Global_intensity"],
  unit: "A",
  labels: "start",
  clock: "standard",
  zone: "Europe/Paris",
} as const;
const minuteRuns = Array.from({ length: 3 }, () => {
  const start = performance.now();
  importAll(minutes, minuteStatements);
  return performance.now() - start;
}).sort((a, b) => a - b);
rows.push({ name: "import 2,075,259 minutes", medianMs: minuteRuns[1] as number, samples: 3 });

const underfuse = "packages/cli/dist/underfuse.js";
if (!existsSync(underfuse)) throw new Error("build first");
const coldStarts = Array.from({ length: 21 }, () => {
  const start = performance.now();
  const { status } = spawnSync(process.execPath, [underfuse, "assess", "examples/terraced-house/job.json"]);
  if (status !== 2) throw new Error(`assess ended with ${status}`);
  return performance.now() - start;
}).sort((a, b) => a - b);
rows.push({ name: "underfuse assess, cold start", medianMs: coldStarts[10] as number, samples: 21 });

for (const { name, medianMs, samples } of rows)
  console.log(`${name.padEnd(36)} ${medianMs.toFixed(2).padStart(9)} ms   (median of ${samples})`);
