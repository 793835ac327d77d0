import type { LocatedJob, Problem } from "../job/index.ts";
import type { SupplyNode, SupplyTree } from "./tree.ts";

/** Whatever else in the job names a node or a cable must name one that is there and fits, and each list entry once. */
export function brokenReferences(job: LocatedJob, tree: SupplyTree): readonly Problem[] {
  const nodes = new Map(tree.nodes.map((node) => [node.id, node]));
  const cableIds = new Set(job.cables.map((cable) => cable.id));
  const mustBe = (
    path: string,
    id: string,
    what: string,
    fits: (node: SupplyNode) => boolean = ({ kind }) => kind === what,
  ): readonly Problem[] => {
    const node = nodes.get(id);
    if (node !== undefined && fits(node)) return [];
    return [
      {
        code: "TREE_UNKNOWN_NODE",
        path,
        received: `"${id}"`,
        message: `There is no ${what} "${id}"${node === undefined ? "" : `: that node is a ${node.kind}`}. Correct the id.`,
      },
    ];
  };

  const recordings = job.demand.recordings.flatMap((recording) =>
    recording.doesNotInclude.flatMap((id) =>
      mustBe(
        `demand.recordings[${recording.id}].doesNotInclude`,
        id,
        "load or storage",
        ({ kind }) => kind === "load" || kind === "storage",
      ),
    ),
  );
  const limited = (job.limiter?.chargePoints ?? []).flatMap((id) =>
    mustBe("limiter.chargePoints", id, "charge-point"),
  );
  const cars = job.cars.flatMap(({ id, chargePoint }) =>
    mustBe(`cars[${id}].chargePoint`, chargePoint, "charge-point"),
  );
  const circuits = job.tests.circuits.flatMap(({ way }) =>
    mustBe(
      `tests.circuits[${way}].way`,
      way,
      "overcurrent device",
      (node) => "overcurrent" in node && node.overcurrent !== null,
    ),
  );
  const deadProofs = job.tests.deadProofs
    .filter(({ where }) => !nodes.has(where))
    .flatMap(({ where }) => mustBe("tests.deadProofs.where", where, "node"));
  const transformers = (job.metering?.currentTransformers ?? []).flatMap((ct): readonly Problem[] => {
    const path = `metering.currentTransformers[${ct.id}]`;
    if (!cableIds.has(ct.cable)) {
      return [
        {
          code: "TREE_UNKNOWN_CABLE",
          path: `${path}.cable`,
          received: `"${ct.cable}"`,
          message: `There is no cable "${ct.cable}". Correct the id.`,
        },
      ];
    }
    const { lines } = tree.cable(ct.cable);
    if (ct.conductor === "N" || lines.includes(ct.conductor)) return [];
    return [
      {
        code: "TREE_LINE_NOT_FED",
        path: `${path}.conductor`,
        received: ct.conductor,
        message: `The cable "${ct.cable}" has ${lines.join(", ")} and neutral, no ${ct.conductor}. Choose a conductor it has.`,
      },
    ];
  });
  const repeated = [
    ...repeatedNames(
      "demand.recordings",
      job.demand.recordings.map(({ id }) => id),
    ),
    ...repeatedNames(
      "metering.currentTransformers",
      (job.metering?.currentTransformers ?? []).map(({ id }) => id),
    ),
    ...repeatedNames(
      "cars",
      job.cars.map(({ id }) => id),
    ),
    ...repeatedNames(
      "limiter.failures",
      (job.limiter?.failures ?? []).map(({ failure }) => failure),
    ),
    ...repeatedNames(
      "tests.circuits",
      job.tests.circuits.map(({ way }) => way),
    ),
  ];
  return [...repeated, ...recordings, ...limited, ...cars, ...circuits, ...deadProofs, ...transformers];
}

const repeatedNames = (list: string, names: readonly string[]): readonly Problem[] =>
  names
    .filter((name, index) => names.indexOf(name) !== index)
    .map((name) => ({
      code: "TREE_DUPLICATE_ID",
      path: `${list}[${name}]`,
      received: `"${name}"`,
      message: `Two entries of ${list} are for "${name}". Keep one, or give the other another name.`,
    }));
