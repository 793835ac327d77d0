import { spawnSync } from "node:child_process";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import {
  addSessions,
  createSiteRun,
  finishRun,
  outcomeOf,
  runDay,
  type SitePlan,
} from "../packages/engine/src/simulation/index.ts";

const ROUNDS = 5;
const DAYS = 365;
const DAY_S = 86_400;
const STEPS = DAYS * DAY_S;

type Use = "all-year" | "evenings";
interface Chain {
  readonly readEveryS: number;
  readonly averageS: number;
}

/** Same figures as reference/simulation/bench.c. */
const planOf = ({ readEveryS, averageS }: Chain): SitePlan => ({
  lineCount: 1,
  stepS: 1,
  voltageV: 230,
  supplyLimitA: 60,
  listExcursionsFromS: DAY_S,
  control: {
    limitA: 60,
    marginA: 1.3,
    law: { kind: "direct" },
    averageS,
    readEveryS,
    decideEveryS: 0,
    commandS: 2,
    minOfferA: 6,
    offerStepA: 1,
    riseHoldS: 30,
    riseStepA: 2,
    resumeExtraA: 3,
    resumeHoldS: 60,
    minimumOffS: 90,
    fallbackA: 10,
    fallbackAfterS: 60,
    sharing: "equal",
    turnS: 900,
  },
  points: [{ id: "point", lines: [0], ratedA: 32 }],
  cars: [
    {
      id: "car",
      point: 0,
      onboardA: 32,
      lineCount: 1,
      response: { deadS: 2, fallAPerS: 8, riseAPerS: 3, resumeS: 6 },
      taperKwh: 1.5,
    },
  ],
  fuse: {
    band: {
      fast: [
        [62, 3600],
        [78, 40],
        [110, 2],
        [400, 0.01],
      ],
      slow: [
        [72, 3600],
        [96, 90],
        [150, 3],
        [500, 0.02],
      ],
    },
    coolingS: 900,
  },
  bodies: [
    { id: "tails", carries: "supply", ratedA: 80, tauS: 400, ambientC: 25, riseAtRatedK: 40, limitC: 70 },
    { id: "cable", carries: 0, ratedA: 36, tauS: 240, ambientC: 25, riseAtRatedK: 40, limitC: 70 },
  ],
  faults: [],
});

/** The building's current for each minute of the year, by the recurrence of reference/simulation/demand.py. */
function buildingDays(): Float64Array[] {
  const [baseA, swingA] = [
    [3, 10, 4, 16],
    [4, 14, 8, 14],
  ];
  let x = 101;
  return Array.from({ length: DAYS }, () =>
    Float64Array.from({ length: 1440 }, (_, minute) => {
      const hour = Math.floor(minute / 60);
      const part = hour < 6 ? 0 : hour < 10 ? 1 : hour < 16 ? 2 : 3;
      x = (16_807 * x) % (2 ** 31 - 1);
      const spikeA = Math.floor(x / 4096) % 16 === 0 ? 17 : 0;
      return (baseA[part] as number) + ((swingA[part] as number) * (x % 4096)) / 4096 + spikeA;
    }),
  );
}

interface Pass {
  readonly processorNs: number;
  readonly wallNs: number;
  readonly sessions: number;
  readonly energyKwh: number;
  readonly overSteps: number;
  readonly longestSteps: number;
  readonly mostFast: number;
  readonly mostSlow: number;
  readonly mostSupplyC: number;
  readonly mostCableC: number;
}

function engineYear(use: Use, chain: Chain, days: readonly Float64Array[]): Pass {
  const started = performance.now();
  const processor = process.cpuUsage();
  const run = createSiteRun(planOf(chain));
  for (const [day, buildingA] of days.entries()) {
    if (use === "evenings") {
      const startS = day * DAY_S + 18 * 3600;
      addSessions(run, [{ car: 0, startS, untilS: startS + 13.5 * 3600, wantedKwh: 12 }]);
    } else if (day === 0) addSessions(run, [{ car: 0, startS: 0, untilS: STEPS, wantedKwh: 1e9 }]);
    runDay(run, buildingA);
  }
  finishRun(run);
  const { user, system } = process.cpuUsage(processor);
  const wallMs = performance.now() - started;
  const { sessions, deliveredKwh, lines, bodies } = outcomeOf(run);
  const [line, tails, cable] = [lines[0], bodies[0], bodies[1]];
  if (!line?.fuse || !tails || !cable) throw new Error("the outcome lacks its line or a body");
  return {
    processorNs: ((user + system) * 1000) / STEPS,
    wallNs: (wallMs * 1e6) / STEPS,
    sessions: sessions.length,
    energyKwh: deliveredKwh,
    overSteps: line.over.totalS,
    longestSteps: line.over.longestS,
    mostFast: line.fuse.fast,
    mostSlow: line.fuse.slow,
    mostSupplyC: tails.mostC,
    mostCableC: cable.mostC,
  };
}

function compiled(folder: string): string | null {
  const program = join(folder, "bench");
  const { status } = spawnSync("cc", ["-O3", "-o", program, "reference/simulation/bench.c", "-lm"]);
  return status === 0 ? program : null;
}

function cYear(program: string, use: Use, { readEveryS, averageS }: Chain): Pass {
  const { stdout, status } = spawnSync(program, [use, `${readEveryS}`, `${averageS}`], { encoding: "utf8" });
  if (status !== 0) throw new Error(`the C program ended with ${status}`);
  return JSON.parse(stdout);
}

/** Counts exactly; the rest within what a hundred million additions may lose. */
function requireSame(engine: Pass, c: Pass): void {
  for (const name of ["sessions", "overSteps", "longestSteps"] as const)
    if (engine[name] !== c[name]) throw new Error(`${name}: ${engine[name]} here, ${c[name]} in C`);
  for (const name of ["energyKwh", "mostFast", "mostSlow", "mostSupplyC", "mostCableC"] as const)
    if (!(Math.abs(engine[name] / c[name] - 1) <= 1e-9))
      throw new Error(`${name}: ${engine[name]} here, ${c[name]} in C`);
}

const median = (values: readonly number[]): number =>
  values.toSorted((a, b) => a - b)[values.length >> 1] as number;
const millions = (ns: number): string => (1000 / ns).toFixed(0).padStart(4);

const folder = mkdtempSync(join(tmpdir(), "bench-"));
try {
  const program = compiled(folder);
  if (program === null) console.log("no C compiler: the year in C is left out");
  const days = buildingDays();
  const chains: readonly Chain[] = [
    { readEveryS: 5, averageS: 5 },
    { readEveryS: 1, averageS: 1 },
  ];
  for (const use of ["all-year", "evenings"] as const)
    for (const chain of chains) {
      engineYear(use, chain, days.slice(0, 30));
      const passes = Array.from({ length: ROUNDS }, () => {
        const engine = engineYear(use, chain, days);
        const c = program === null ? null : cYear(program, use, chain);
        if (c !== null) requireSame(engine, c);
        return { engine, c };
      });
      const ours = (of: "processorNs" | "wallNs") => median(passes.map(({ engine }) => engine[of]));
      const theirs = (of: "processorNs" | "wallNs") =>
        median(passes.map(({ c }) => (c === null ? Number.NaN : c[of])));
      const what = `a year at 1 s, ${use}, read every ${chain.readEveryS} s`;
      const speed = `${millions(ours("processorNs"))} million steps a second of processor time, ${millions(ours("wallNs"))} by the clock`;
      const beside =
        program === null
          ? ""
          : `; C ${millions(theirs("processorNs"))} and ${millions(theirs("wallNs"))}: ${(ours("processorNs") / theirs("processorNs")).toFixed(2)} times C's time`;
      console.log(`${what.padEnd(44)} ${speed}${beside}   (median of ${ROUNDS})`);
    }
} finally {
  rmSync(folder, { recursive: true });
}
