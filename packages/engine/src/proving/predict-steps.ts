import {
  type Complex,
  complex,
  conjugate,
  divide,
  LINE_ANGLE_RAD,
  type Line,
  polar,
} from "../quantities/index.ts";
import type { JobOnTree } from "../supply/index.ts";
import { type Chain, soundChain } from "./chain.ts";
import { chainOfJob } from "./chain-of-job.ts";
import type { DesignedPlace, Sight } from "./designed-place.ts";
import type { MeterReading } from "./meter-reading.ts";
import { predictReading } from "./predict-reading.ts";

/** What is done in a step that is predicted. */
export interface PlannedStep {
  readonly id: string;
  /** Current offered to the car on each of its lines. [A] */
  readonly offeredA: number;
  readonly carLines: readonly Line[];
  readonly load: { readonly line: Line; readonly watts: number } | null;
}

export type PredictedBand = readonly [low: number, high: number];

/** What a sound chain adds to the idle reading in one step. Currents do not add exactly; powers do. */
export interface PredictedChannel {
  readonly channel: Line;
  /** [V] */
  readonly V: PredictedBand;
  /** [A], with nothing else on */
  readonly I: PredictedBand;
  /** [W] above the idle reading */
  readonly P: PredictedBand;
  /** [var] above the idle reading */
  readonly Q: PredictedBand;
  /** With nothing else on; null where nothing flows. */
  readonly PF: PredictedBand | null;
}

export interface PredictedStep {
  readonly step: PlannedStep;
  readonly channels: readonly PredictedChannel[];
  readonly totalP: PredictedBand;
  readonly totalQ: PredictedBand;
}

/** Share of its offer that a car draws, and how far its current lags. Common practice. */
const CAR_SHARE: PredictedBand = [0.92, 1];
const CAR_TAN: PredictedBand = [-0.05, 0.15];
const KNOWN_LOAD_W = 2500;
/** A heater's power at the supply's voltage beside its plate. Common practice. */
const LOAD_SHARE: PredictedBand = [0.88, 1.1];
/** Bounds of the supply's voltage where none was measured. */
const SUPPLY_V: PredictedBand = [216.2, 253];
/** Greatest error of ratio and of angle of the whole chain. Own judgement until the job's own is worked out. */
const RATIO_ERROR = 0.04;
const ANGLE_ERROR_RAD = 0.035;

const OFFERS_A = [0, 6, 10, 16, 32];

/** The steps that settle a chain: the car at each current, and a known load, line by line. */
export function plannedSteps({ job }: JobOnTree, names: readonly Line[]): readonly PlannedStep[] {
  const points = job.nodes.flatMap((node) => (node.kind === "charge-point" ? [node] : []));
  const most = Math.max(0, ...points.map(({ ratedA }) => (ratedA.state === "known" ? ratedA.value : 32)));
  const charging = OFFERS_A.filter((amps) => amps <= most).flatMap((offeredA): PlannedStep[] =>
    offeredA === 0
      ? [{ id: "car idle", offeredA, carLines: [], load: null }]
      : names.map((line) => ({ id: `car ${offeredA} A on ${line}`, offeredA, carLines: [line], load: null })),
  );
  const together: PlannedStep[] =
    names.length === 3 && most >= 16
      ? [{ id: "car 16 A on all lines", offeredA: 16, carLines: names, load: null }]
      : [];
  const loads = names.map(
    (line): PlannedStep => ({
      id: `${KNOWN_LOAD_W} W heater on ${line}`,
      offeredA: 0,
      carLines: [],
      load: { line, watts: KNOWN_LOAD_W },
    }),
  );
  return [...charging, ...together, ...loads];
}

/**
 * What every reading should be in those steps, with a chain that is sound and stands where the design puts it;
 * null where the job has no chain.
 *
 * What a transformer misses by the design it does not show. Where it sees one circuit or charge point and not
 * another, the band reaches from nothing to all of it.
 */
export function predictSteps(open: JobOnTree): readonly PredictedStep[] | null {
  const design = chainOfJob(open.job, open.tree);
  if (design === null) return null;
  const supply = open.job.supply.measuredVoltageV;
  const measured = design.channels.map((line): PredictedBand => {
    const fact = supply[line];
    return fact?.state === "known" ? [fact.value * 0.97, fact.value * 1.03] : SUPPLY_V;
  });
  return plannedSteps(open, design.channels).map((step) =>
    predicted(step, chainsAsDesigned(design.places), measured, design.channels),
  );
}

/** The chain that sees least of what is left open, and the one that sees most; one where nothing is. */
function chainsAsDesigned(places: readonly DesignedPlace[]): readonly Chain[] {
  const chain = (part: 0 | 1): Chain => {
    const share = (sight: Sight): number => ({ all: 1, part, none: 0 })[sight];
    return {
      ...soundChain(places.length),
      seesBuilding: places.map(({ seesBuilding }) => share(seesBuilding)),
      seesChargePoint: places.map(({ seesChargePoint }) => share(seesChargePoint)),
      seesGeneration: places.map(({ seesGeneration }) => share(seesGeneration)),
    };
  };
  const isOpen = places.some(({ seesBuilding, seesChargePoint }) =>
    [seesBuilding, seesChargePoint].includes("part"),
  );
  return isOpen ? [chain(0), chain(1)] : [chain(1)];
}

function predicted(
  step: PlannedStep,
  chains: readonly Chain[],
  supply: readonly PredictedBand[],
  names: readonly Line[],
): PredictedStep {
  const volts = ([0, 1] as const).map((end) => supply.map((band) => band[end]));
  const readings = chains.flatMap((chain) =>
    CAR_TAN.flatMap((tan) =>
      ([0, 1] as const).map((end) =>
        reading(step, chain, {
          names,
          volts: volts[end] as readonly number[],
          carShare: CAR_SHARE[end],
          loadShare: LOAD_SHARE[end],
          tan,
        }),
      ),
    ),
  );
  const channels = names.map((channel, c): PredictedChannel => {
    const of = (kind: "V" | "I" | "P" | "Q"): PredictedBand =>
      bandOf(readings.map((item) => item[kind][c] ?? 0));
    const P = of("P");
    const Q = of("Q");
    return {
      channel,
      V: supply[c] as PredictedBand,
      I: widened(of("I"), RATIO_ERROR),
      P: turned(P, Q, ANGLE_ERROR_RAD),
      Q: turned(Q, P, ANGLE_ERROR_RAD),
      PF: of("I")[1] === 0 ? null : [Math.cos(Math.atan(CAR_TAN[1]) + ANGLE_ERROR_RAD), 1],
    };
  });
  const sum = (kind: "P" | "Q"): PredictedBand => [
    channels.reduce((total, channel) => total + channel[kind][0], 0),
    channels.reduce((total, channel) => total + channel[kind][1], 0),
  ];
  return { step, channels, totalP: sum("P"), totalQ: sum("Q") };
}

function reading(
  { offeredA, carLines, load }: PlannedStep,
  chain: Chain,
  site: {
    readonly names: readonly Line[];
    readonly volts: readonly number[];
    readonly carShare: number;
    readonly loadShare: number;
    /** Tangent of the angle by which the car's current lags. */
    readonly tan: number;
  },
): MeterReading {
  const { names, volts, carShare, loadShare, tan } = site;
  const voltageV = names.map((line, k) => polar(volts[k] as number, LINE_ANGLE_RAD[line]));
  const drawn = (line: Line, k: number, watts: number, vars: number): Complex =>
    conjugate(divide(complex(watts, vars), voltageV[k] ?? polar(1, LINE_ANGLE_RAD[line])));
  return predictReading(chain, {
    voltageV,
    buildingA: names.map((line, k) => drawn(line, k, load?.line === line ? load.watts * loadShare : 0, 0)),
    chargePointA: names.map((line, k) => {
      const size = carLines.includes(line) ? offeredA * carShare * (volts[k] as number) : 0;
      const cosine = 1 / Math.hypot(1, tan);
      return drawn(line, k, size * cosine, size * cosine * tan);
    }),
    generationA: names.map(() => complex(0)),
  });
}

const bandOf = (values: readonly number[]): PredictedBand => [Math.min(...values), Math.max(...values)];

const widened = ([low, high]: PredictedBand, share: number): PredictedBand => [
  low - share * Math.abs(low),
  high + share * Math.abs(high),
];

/** A power's band widened by the errors of ratio and of angle; the angle's acts on the other power. */
function turned(own: PredictedBand, other: PredictedBand, angleRad: number): PredictedBand {
  const [low, high] = widened(own, RATIO_ERROR);
  const beside = angleRad * Math.max(Math.abs(other[0]), Math.abs(other[1]));
  return [low - beside, high + beside];
}
