import type { JobCable, Located, LocatedJob, Problem } from "../job/index.ts";
import type { Line, ProblemCode } from "../quantities/index.ts";
import { isEnd, type SupplyCable, type SupplyNode, SupplyTree } from "./tree.ts";

export type TreeResult =
  | { readonly ok: true; readonly tree: SupplyTree }
  | { readonly ok: false; readonly problems: readonly Problem[] };

type Wiring = Pick<LocatedJob, "nodes" | "supply"> & { readonly cables: readonly SupplyCable[] };

const problem = (code: ProblemCode, path: string, received: string, message: string): Problem => ({
  code,
  path,
  received,
  message,
});

/** Builds the supply tree of a job, or says what keeps it from being one. Linear in nodes and cables. */
export function buildTree(located: Pick<LocatedJob, "nodes" | "cables" | "supply">): TreeResult {
  const nodes = new Map(located.nodes.map((node) => [node.id, node]));
  const job: Wiring = { ...located, cables: located.cables.map((cable) => named(cable, nodes)) };
  const idProblems = duplicateIds(job);
  if (idProblems.length > 0) return { ok: false, problems: idProblems };
  const endProblems = unknownEnds(job, nodes);
  if (endProblems.length > 0) return { ok: false, problems: endProblems };

  const feeds = new Map<string, SupplyCable>();
  const below = new Map<string, SupplyCable[]>();
  for (const cable of job.cables) {
    if (!feeds.has(cable.to)) feeds.set(cable.to, cable);
    const siblings = below.get(cable.from);
    if (siblings) siblings.push(cable);
    else below.set(cable.from, [cable]);
  }
  const shapeProblems = [...twoFeeds(job, feeds), ...misplacedKinds(job, nodes, below)];
  if (shapeProblems.length > 0) return { ok: false, problems: shapeProblems };

  const origin = job.nodes.find((node) => node.kind === "origin") as SupplyNode;
  const walked = walk(origin, nodes, feeds, below);
  const problems = [...unreached(job, walked.branches, feeds), ...linesNotFed(job, feeds)];
  if (problems.length > 0) return { ok: false, problems };
  const cables = new Map(job.cables.map((cable) => [cable.id, cable]));
  return { ok: true, tree: new SupplyTree(walked.order, walked.branches, cables, below) };
}

const named = (cable: Located<JobCable>, nodes: ReadonlyMap<string, SupplyNode>): SupplyCable => {
  const label = (id: string): string => nodes.get(id)?.label ?? id;
  return { ...cable, name: `${label(cable.from)} to ${label(cable.to)}` };
};

function duplicateIds(job: Wiring): readonly Problem[] {
  const repeated = (list: "nodes" | "cables") => {
    const seen = new Set<string>();
    return job[list].flatMap(({ id }) => {
      if (!seen.has(id)) {
        seen.add(id);
        return [];
      }
      return [
        problem(
          "TREE_DUPLICATE_ID",
          `${list}[${id}]`,
          `"${id}"`,
          `Two ${list} have the id "${id}". Give one of them another id.`,
        ),
      ];
    });
  };
  return [...repeated("nodes"), ...repeated("cables")];
}

const unknownEnds = (job: Wiring, nodes: ReadonlyMap<string, SupplyNode>): readonly Problem[] =>
  job.cables.flatMap((cable) =>
    (["from", "to"] as const)
      .filter((end) => !nodes.has(cable[end]))
      .map((end) =>
        problem(
          "TREE_UNKNOWN_NODE",
          `cables[${cable.id}].${end}`,
          `"${cable[end]}"`,
          `There is no node "${cable[end]}". Add the node, or correct the id.`,
        ),
      ),
  );

const twoFeeds = (job: Wiring, feeds: ReadonlyMap<string, SupplyCable>): readonly Problem[] =>
  job.cables
    .filter((cable) => feeds.get(cable.to) !== cable)
    .map((cable) =>
      problem(
        "TREE_TWO_FEEDS",
        `cables[${cable.id}].to`,
        `"${cable.to}"`,
        `The node "${cable.to}" is fed twice, by "${feeds.get(cable.to)?.id}" and by "${cable.id}". Remove one feed; a second supply is a generator or storage node.`,
      ),
    );

function misplacedKinds(
  job: Wiring,
  nodes: ReadonlyMap<string, SupplyNode>,
  below: ReadonlyMap<string, readonly SupplyCable[]>,
): readonly Problem[] {
  const problems: Problem[] = [];
  for (const kind of ["origin", "cut-out"] as const) {
    const found = job.nodes.filter((node) => node.kind === kind);
    if (found.length === 1) continue;
    problems.push(
      problem(
        found.length === 0 && kind === "origin" ? "TREE_NO_ORIGIN" : "TREE_NOT_ALLOWED_HERE",
        "nodes",
        `${found.length} of kind "${kind}"`,
        `A supply has one node of kind "${kind}". ${found.length === 0 ? "Add it." : "Keep the right one; describe another supply in a job of its own."}`,
      ),
    );
  }
  for (const cable of job.cables) {
    const from = nodes.get(cable.from) as SupplyNode;
    const to = nodes.get(cable.to) as SupplyNode;
    if (to.kind === "origin") {
      problems.push(
        problem(
          "TREE_NOT_ALLOWED_HERE",
          `cables[${cable.id}].to`,
          `"${cable.to}"`,
          "Nothing feeds the origin. Turn the cable round, or end it elsewhere.",
        ),
      );
    }
    if ((from.kind === "origin") !== (to.kind === "cut-out")) {
      problems.push(
        problem(
          "TREE_NOT_ALLOWED_HERE",
          `cables[${cable.id}].from`,
          `"${cable.from}"`,
          "The origin feeds the cut-out and nothing else, and the cut-out is fed from nowhere else. Begin this cable at the cut-out or after it.",
        ),
      );
    }
    if (isEnd(from)) {
      problems.push(
        problem(
          "TREE_NOT_ALLOWED_HERE",
          `cables[${cable.id}].from`,
          `"${cable.from}"`,
          `Nothing is fed from a ${from.kind}. Put a board, a way or a connector block where the cable begins.`,
        ),
      );
    }
    if (from.kind === "origin" && below.get(from.id)?.length !== 1 && below.get(from.id)?.[0] === cable) {
      problems.push(
        problem(
          "TREE_NOT_ALLOWED_HERE",
          `cables[${cable.id}].from`,
          `"${cable.from}"`,
          "One cable joins the origin and the cut-out. Remove the others.",
        ),
      );
    }
  }
  return problems;
}

/** Depth first with a stack of its own, so that a chain of any length is walked. */
function walk(
  origin: SupplyNode,
  nodes: ReadonlyMap<string, SupplyNode>,
  feeds: ReadonlyMap<string, SupplyCable>,
  below: ReadonlyMap<string, readonly SupplyCable[]>,
) {
  const order: SupplyNode[] = [];
  const branches = new Map<
    string,
    { node: SupplyNode; feed: SupplyCable | null; first: number; last: number }
  >();
  const stack: { node: SupplyNode; next: number }[] = [];
  const enter = (node: SupplyNode) => {
    branches.set(node.id, {
      node,
      feed: feeds.get(node.id) ?? null,
      first: order.length,
      last: order.length,
    });
    order.push(node);
    stack.push({ node, next: 0 });
  };
  enter(origin);
  for (let top = stack.at(-1); top !== undefined; top = stack.at(-1)) {
    const cable = below.get(top.node.id)?.[top.next++];
    if (cable !== undefined) {
      enter(nodes.get(cable.to) as SupplyNode);
      continue;
    }
    const branch = branches.get(top.node.id);
    if (branch) branch.last = order.length - 1;
    stack.pop();
  }
  return { order, branches };
}

function unreached(
  job: Wiring,
  reached: ReadonlyMap<string, unknown>,
  feeds: ReadonlyMap<string, SupplyCable>,
): readonly Problem[] {
  return job.nodes
    .filter((node) => !reached.has(node.id))
    .map((node) => {
      const loop = loopThrough(node.id, feeds);
      return loop === undefined
        ? problem(
            "TREE_ORPHAN",
            `nodes[${node.id}]`,
            `"${node.id}"`,
            `Nothing feeds "${node.id}" from the origin. Add the cable that feeds it, or remove it.`,
          )
        : problem(
            "TREE_CIRCULAR",
            `nodes[${node.id}]`,
            loop,
            "These nodes feed each other in a circle. Correct the cable that points back.",
          );
    });
}

/** The circle of feeds a node is caught in, as text; undefined when its feeds simply end. */
function loopThrough(id: string, feeds: ReadonlyMap<string, SupplyCable>): string | undefined {
  const seen: string[] = [id];
  const known = new Set(seen);
  for (let feed = feeds.get(id); feed !== undefined; feed = feeds.get(feed.from)) {
    if (known.has(feed.from)) {
      const circle = seen.slice(seen.indexOf(feed.from)).reverse();
      return (circle.length > 6 ? [...circle.slice(0, 5), "…"] : circle).join(" → ");
    }
    seen.push(feed.from);
    known.add(feed.from);
  }
  return undefined;
}

function linesNotFed(job: Wiring, feeds: ReadonlyMap<string, SupplyCable>): readonly Problem[] {
  const supplyLines: readonly Line[] = job.supply.phases === 1 ? ["L1"] : ["L1", "L2", "L3"];
  return job.cables.flatMap((cable) => {
    const feed = feeds.get(cable.from);
    const fed = feed?.lines ?? supplyLines;
    const absent = cable.lines.filter((line) => !fed.includes(line));
    if (absent.length > 0) {
      return [
        problem(
          "TREE_LINE_NOT_FED",
          `cables[${cable.id}].lines`,
          cable.lines.join(", "),
          `${absent.join(", ")} does not reach "${cable.from}", which has ${fed.join(", ")}. Correct the lines here${feed ? ` or on "${feed.id}"` : ", or the number of phases of the supply"}.`,
        ),
      ];
    }
    if (feed === undefined && cable.lines.length < supplyLines.length) {
      return [
        problem(
          "TREE_LINE_NOT_FED",
          `cables[${cable.id}].lines`,
          cable.lines.join(", "),
          `The supply has ${supplyLines.join(", ")}; the service cable carries all of them. Correct the lines, or the number of phases of the supply.`,
        ),
      ];
    }
    return [];
  });
}
