/**
 * The supply as a tree: what feeds what, from the origin to every load.
 *
 * Line names are those of the supply everywhere in the tree. The order of `lines` on a cable says only
 * which terminal of the load end each one meets.
 *
 * @module
 */

import type { JobCable, JobNode, Located } from "../job/index.ts";
import { EngineError, type Line } from "../quantities/index.ts";

export type SupplyNode = Located<JobNode>;
export type NodeOfKind<K extends JobNode["kind"]> = Extract<SupplyNode, { readonly kind: K }>;
/** A cable of the job, named as people name it: "Meter to Isolator". */
export type SupplyCable = Located<JobCable> & { readonly name: string };

/** Kinds of node at which current is used or made; nothing is fed from them. */
export const END_KINDS = ["load", "charge-point", "generator", "storage"] as const;
export type EndNode = NodeOfKind<(typeof END_KINDS)[number]>;
export const isEnd = (node: SupplyNode): node is EndNode =>
  (END_KINDS as readonly string[]).includes(node.kind);

interface Branch {
  readonly node: SupplyNode;
  /** Cable that feeds the node; null at the origin. */
  readonly feed: SupplyCable | null;
  /** Places of the node's first and last descendant in reading order, itself included. */
  readonly first: number;
  readonly last: number;
}

/** A sound supply tree. Made by `buildTree`, which refuses everything that is not one. */
export class SupplyTree {
  readonly #branches: ReadonlyMap<string, Branch>;
  readonly #cables: ReadonlyMap<string, SupplyCable>;
  readonly #below: ReadonlyMap<string, readonly SupplyCable[]>;
  readonly #ends: readonly EndNode[];

  constructor(
    /** Every node in reading order: a node before what it feeds, in document order. */
    readonly nodes: readonly SupplyNode[],
    branches: ReadonlyMap<string, Branch>,
    cables: ReadonlyMap<string, SupplyCable>,
    below: ReadonlyMap<string, readonly SupplyCable[]>,
  ) {
    this.#branches = branches;
    this.#cables = cables;
    this.#below = below;
    this.#ends = nodes.filter(isEnd);
  }

  /** @throws EngineError NOT_IN_TREE */
  node(id: string): SupplyNode {
    return this.#branch(id).node;
  }

  /** @throws EngineError NOT_IN_TREE */
  cable(id: string): SupplyCable {
    const cable = this.#cables.get(id);
    if (cable === undefined) throw notInTree("cable", id);
    return cable;
  }

  ofKind<K extends JobNode["kind"]>(kind: K): readonly NodeOfKind<K>[] {
    return this.nodes.filter((node): node is NodeOfKind<K> => node.kind === kind);
  }

  /** The one cut-out. */
  get cutOut(): NodeOfKind<"cut-out"> {
    return this.ofKind("cut-out")[0] as NodeOfKind<"cut-out">;
  }

  /** The cable that carries everything the main fuse carries: the feed of the cut-out. */
  get serviceCable(): SupplyCable {
    return this.feedOf(this.cutOut.id) as SupplyCable;
  }

  /** Cable that feeds a node; null at the origin. */
  feedOf(id: string): SupplyCable | null {
    return this.#branch(id).feed;
  }

  /** Cables fed from a node, in document order. */
  cablesBelow(id: string): readonly SupplyCable[] {
    return this.#below.get(id) ?? [];
  }

  /** Cables from the origin to a node, supply side first. */
  pathTo(id: string): readonly SupplyCable[] {
    const path: SupplyCable[] = [];
    for (let feed = this.feedOf(id); feed !== null; feed = this.feedOf(feed.from)) path.push(feed);
    return path.reverse();
  }

  /** Nodes from the origin to a node, supply side first, both included. */
  nodesTo(id: string): readonly SupplyNode[] {
    const path = this.pathTo(id);
    return [...path.map((cable) => this.node(cable.from)), this.node(id)];
  }

  /** A node and everything fed through it, in reading order. */
  nodesBelow(id: string): readonly SupplyNode[] {
    const { first, last } = this.#branch(id);
    return this.nodes.slice(first, last + 1);
  }

  /** The lines that reach a node, in the order of its terminals. */
  linesAt(id: string): readonly Line[] {
    return (this.feedOf(id) ?? this.cablesBelow(id)[0])?.lines ?? [];
  }

  /** The ends whose current on `line` passes a cable. */
  endsCarried(cable: SupplyCable, line: Line): readonly EndNode[] {
    if (!cable.lines.includes(line)) return [];
    return this.endsBelow(cable.to).filter((end) => this.linesAt(end.id).includes(line));
  }

  /** The ends fed through a node, in reading order; the node itself when it is one. */
  endsBelow(id: string): readonly EndNode[] {
    const { first, last } = this.#branch(id);
    return this.#ends.slice(this.#endsBefore(first), this.#endsBefore(last + 1));
  }

  /** How many ends stand before a place in reading order. */
  #endsBefore(place: number): number {
    let [low, high] = [0, this.#ends.length];
    while (low < high) {
      const middle = (low + high) >> 1;
      if (this.#branch((this.#ends[middle] as EndNode).id).first < place) low = middle + 1;
      else high = middle;
    }
    return low;
  }

  #branch(id: string): Branch {
    const branch = this.#branches.get(id);
    if (branch === undefined) throw notInTree("node", id);
    return branch;
  }
}

const notInTree = (what: string, id: string): EngineError =>
  new EngineError("NOT_IN_TREE", `The supply tree has no ${what} "${id}". Use an id of the job.`, { id });
