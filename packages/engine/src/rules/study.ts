import { type CableLoops, cableLoops } from "../circuits/index.ts";
import {
  type ExistingDemand,
  existingDemand,
  type LineDemand,
  lineDemand,
  type SeriesByRecording,
} from "../demand/index.ts";
import { given, type LocatedFact, type LocatedJob } from "../job/index.ts";
import { highestLimit, limitInForce, limitMargin, supplyLimit } from "../limiter/index.ts";
import { chainError } from "../metering/index.ts";
import type { Device } from "../protection/index.ts";
import type { Line } from "../quantities/index.ts";
import type { NodeOfKind, OpenJob, SupplyCable, SupplyNode, SupplyTree } from "../supply/index.ts";
import { type Figures, figureOn, largest, type Quantity, unknownFigure } from "../worked/index.ts";
import { earthPath } from "./earth-path.ts";
import type { FigureId, Knowledge } from "./knowledge.ts";

/** What an assessment needs besides the job: the day, and the recordings the shell could read. */
export interface AssessmentInputs {
  /** Today, for deadlines. No clock is read. */
  readonly onIso: string;
  readonly series: SeriesByRecording;
  /** Why the shell could not read a recording's file, by its id. */
  readonly unread?: ReadonlyMap<string, string>;
}

/** A node with an overcurrent device. */
export type Protected = SupplyNode & { readonly overcurrent: Device };

/** One charge point with its way back to the supply. */
export interface PointCircuit {
  readonly point: NodeOfKind<"charge-point">;
  /** Cables after the cut-out, supply side first. */
  readonly path: readonly SupplyCable[];
  /** The same as an earth fault takes it. */
  readonly earthPath: readonly SupplyCable[];
  /** Cables after the device that protects the final circuit. */
  readonly finalCables: readonly SupplyCable[];
  /** Node whose overcurrent device protects the final circuit; the cut-out when nothing nearer does. */
  readonly protectedBy: Protected;
  /** Nodes on the way from the origin, the charge point included. */
  readonly nodes: readonly SupplyNode[];
}

/** A job with everything several rules ask of it, worked out once. */
export interface Study {
  readonly job: LocatedJob;
  readonly tree: SupplyTree;
  readonly knowledge: Knowledge;
  readonly inputs: AssessmentInputs;
  /** The design date, or today while the job has none. */
  readonly designIso: string;
  /** As the edition of the wiring rules that is used prints them; by the design date while none is chosen. */
  readonly figures: Figures<FigureId>;
  readonly u0: Quantity;
  /** Ze as measured; as declared until then. [Ω] */
  readonly externalImpedance: Quantity;
  readonly lines: readonly Line[];
  /** Per line: limit of the supply, margin under it, and the limit the load manager holds. */
  readonly supplyLimit: Quantity;
  readonly margin: Quantity;
  readonly highestLimit: Quantity;
  readonly limit: Quantity;
  readonly demand: readonly LineDemand[];
  readonly circuits: readonly PointCircuit[];
  /** What each cable adds to a loop. */
  readonly loops: CableLoops;
  /** The node whose device protects what leaves a node; that node itself when it has one. */
  readonly deviceAhead: (id: string) => Protected;
}

export function study({ job, tree }: OpenJob, knowledge: Knowledge, inputs: AssessmentInputs): Study {
  const designIso = job.work.designedOn.state === "known" ? job.work.designedOn.value : inputs.onIso;
  const figures = figuresOn(editionDay(designIso, job, knowledge), knowledge);
  const lines = tree.serviceCable.lines;
  const deviceAhead = devicesAhead(tree);
  const supply = supplyLimit(tree.cutOut.overcurrent.ratingA, job.supply.operator.agreedImportLimitA);
  const margin = limitMargin(supply, job.limiter, chainErrorAt(supply, job, knowledge, figures), figures);
  const highest = highestLimit(supply, margin);
  const limit = limitInForce(job.limiter, highest);
  const existing = (line: Line): ExistingDemand =>
    existingDemand(line, {
      tree,
      premises: job.site.premises,
      recordings: job.demand.recordings,
      series: inputs.series,
      tables: knowledge.demand,
      figures,
    });
  const management = job.limiter && { governs: job.limiter.chargePoints, limit };
  return {
    job,
    tree,
    knowledge,
    inputs,
    designIso,
    figures,
    u0: given(job.supply.nominalVoltageV, "U0"),
    externalImpedance: firstKnown(
      given(job.supply.measuredZeOhm, "Ze"),
      given(job.supply.declaredZeOhm, "Ze"),
    ),
    lines,
    supplyLimit: supply,
    margin,
    highestLimit: highest,
    limit,
    demand: lines.map((line) => lineDemand(tree, existing(line), management)),
    circuits: tree
      .ofKind("charge-point")
      .map((point) => pointCircuit(tree, point, deviceAhead(point.id), job.earthing.earthingConductorMm2)),
    loops: cableLoops(knowledge.circuits, figures),
    deviceAhead,
  };
}

/** The day nearest the design on which the edition used could be used: its figures go with it. */
function editionDay(designIso: string, { work }: LocatedJob, { editions }: Knowledge): string {
  const { wiringRules } = work;
  const edition = editions.find(({ id }) => wiringRules.state === "known" && id === wiringRules.value);
  if (edition === undefined) return designIso;
  if (designIso < edition.from) return edition.from;
  return edition.until !== null && designIso > edition.until ? edition.until : designIso;
}

/** The figures in force on a day, each looked up once. */
function figuresOn(dateIso: string, knowledge: Knowledge): Figures<FigureId> {
  const looked = new Map<FigureId, Quantity>();
  return (name) => {
    const figure = looked.get(name) ?? figureOn(knowledge.figures[name], dateIso);
    looked.set(name, figure);
    return figure;
  };
}

const firstKnown = (preferred: Quantity, otherwise: Quantity): Quantity =>
  preferred.kind !== "unknown" || otherwise.kind === "unknown" ? preferred : otherwise;

function pointCircuit(
  tree: SupplyTree,
  point: NodeOfKind<"charge-point">,
  protectedBy: Protected,
  earthingConductorMm2: LocatedFact<number>,
): PointCircuit {
  const nodes = tree.nodesTo(point.id);
  const path = tree.pathTo(point.id).slice(1);
  const start = path.findIndex((cable) => cable.from === protectedBy.id);
  return {
    point,
    path,
    earthPath: earthPath(tree, path, earthingConductorMm2),
    finalCables: start < 0 ? path : path.slice(start),
    protectedBy,
    nodes,
  };
}

/** For each node the nearest on the way to the supply, itself included, whose device protects what follows; the cut-out at last. */
function devicesAhead(tree: SupplyTree): (id: string) => Protected {
  const ahead = new Map<string, Protected>();
  for (const node of tree.nodes) {
    const before = ahead.get(tree.feedOf(node.id)?.from ?? "") ?? tree.cutOut;
    ahead.set(node.id, hasOvercurrent(node) ? node : before);
  }
  return (id) => ahead.get(id) ?? tree.cutOut;
}

/** True for a node with a device that protects what follows it. */
export const hasOvercurrent = (node: SupplyNode): node is Protected =>
  "overcurrent" in node && node.overcurrent !== null;

/** Greatest error at the supply's limit of the worst transformer and the meter; unknown without a chain. */
function chainErrorAt(
  supply: Quantity,
  { metering }: LocatedJob,
  { metering: tables }: Knowledge,
  figures: Figures<FigureId>,
): Quantity {
  const named = { symbol: "e", label: "greatest error of the metering chain", unit: "%" };
  const errors =
    metering === null
      ? []
      : metering.currentTransformers.map(
          (transformer) =>
            chainError(supply, { transformer, meterClass: metering.meterClass, tables, figures }).worst,
        );
  const [first, ...rest] = errors;
  return first === undefined
    ? unknownFigure(named, named.label)
    : largest({ ...named, clause: "chain-error" }, [first, ...rest]);
}
