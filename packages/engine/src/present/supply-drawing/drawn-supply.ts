/**
 * What the single-line drawing shows, decided before a line is drawn: every node with its words, the
 * cable that feeds it, and the current transformers on that cable with what they see.
 *
 * @module
 */
import type { Job, Located, LocatedFact } from "../../job/index.ts";
import { type SupplyCable, type SupplyNode, type SupplyTree, transformerView } from "../../supply/index.ts";
import { withUnit } from "../format.ts";

export type DrawnSymbol =
  | "origin"
  | "fuse"
  | "meter"
  | "switch"
  | "block"
  | "board"
  | "breaker"
  | "load"
  | "charge-point"
  | "generator"
  | "storage";

export interface DrawnTransformer {
  readonly id: string;
  readonly words: readonly string[];
  /** +1 arrow towards the load, −1 towards the supply, 0 not recorded. */
  readonly arrow: 1 | -1 | 0;
  readonly seesAll: boolean;
}

export interface DrawnNode {
  readonly id: string;
  readonly symbol: DrawnSymbol;
  readonly hasResidual: boolean;
  readonly title: string;
  /** Ratings and what else the symbol does not say. */
  readonly words: readonly string[];
  /** Cable from above: its words, and how many line conductors it has. Null at the origin. */
  readonly feed: { readonly words: readonly string[]; readonly lineCount: number } | null;
  readonly transformers: readonly DrawnTransformer[];
  readonly children: readonly DrawnNode[];
}

type Metering = Located<Job>["metering"];

export function drawnSupply(tree: SupplyTree, metering: Metering): DrawnNode {
  const draw = (node: SupplyNode): DrawnNode => {
    const feed = tree.feedOf(node.id);
    return {
      id: node.id,
      symbol: symbolOf(node),
      hasResidual: "residual" in node && node.residual !== null,
      title: node.label,
      words: nodeWords(node),
      feed: feed === null ? null : { words: cableWords(feed, tree), lineCount: feed.lines.length },
      transformers: feed === null ? [] : transformersOn(feed, tree, metering),
      children: [],
    };
  };
  // Children are filled from the last node back, so that a chain of any length needs no recursion.
  const drawn = new Map(tree.nodes.map((node) => [node.id, draw(node)]));
  for (const node of [...tree.nodes].reverse()) {
    const children = tree.cablesBelow(node.id).map((cable) => drawn.get(cable.to) as DrawnNode);
    drawn.set(node.id, { ...(drawn.get(node.id) as DrawnNode), children });
  }
  return drawn.get(tree.nodes[0]?.id ?? "") as DrawnNode;
}

function symbolOf(node: SupplyNode): DrawnSymbol {
  switch (node.kind) {
    case "cut-out":
      return "fuse";
    case "isolator":
      return node.overcurrent === null ? "switch" : isFuse(node.overcurrent.standard) ? "fuse" : "breaker";
    case "way":
      return isFuse(node.overcurrent.standard) ? "fuse" : "breaker";
    case "connector-block":
      return "block";
    default:
      return node.kind;
  }
}

const isFuse = (standard: LocatedFact<string>): boolean =>
  standard.state === "known" && /^bs-(88|1361|3036)/.test(standard.value);

const known = <T>(fact: LocatedFact<T>, say: (value: T) => string): readonly string[] =>
  fact.state === "known" ? [say(fact.value)] : fact.state === "not-recorded" ? ["?"] : [];
const amps = (value: number): string => withUnit(value, "A", Number.isInteger(value) ? 0 : 1);
const standardText = (standard: string): string =>
  standard
    .replace(/^bs-en-/, "BS EN ")
    .replace(/^bs-/, "BS ")
    .replace(/-(i+)$/, (_, type: string) => ` type ${type.toUpperCase()}`);

function nodeWords(node: SupplyNode): readonly string[] {
  const words: string[] = [];
  if ("overcurrent" in node && node.overcurrent !== null) {
    const { curve, ratingA, standard } = node.overcurrent;
    words.push(
      [
        ...known(curve, (value) => `type ${value}`),
        ...known(ratingA, amps),
        ...known(standard, standardText),
      ].join(", "),
    );
  }
  if ("residual" in node && node.residual !== null) {
    const { type, ratedResidualMa } = node.residual;
    words.push(
      [
        "RCD",
        ...known(type, (value) => `type ${value}`),
        ...known(ratedResidualMa, (value) => withUnit(value, "mA", 0)),
      ].join(" "),
    );
  }
  switch (node.kind) {
    case "load":
      words.push(...known(node.ratedA, amps));
      break;
    case "charge-point":
      words.push(...known(node.ratedA, (value) => `${amps(value)} a line`));
      break;
    case "generator":
      words.push(...known(node.exportA, (value) => `${amps(value)} a line, feeds back`));
      break;
    case "storage":
      words.push(
        ...known(node.importA, (value) => `takes ${amps(value)} a line`),
        ...known(node.exportA, (value) => `gives ${amps(value)} a line`),
      );
      break;
  }
  return words;
}

/** Lines where they are not those of the node above, then size, construction, length and method. */
function cableWords(cable: SupplyCable, tree: SupplyTree): readonly string[] {
  const above = tree.linesAt(cable.from);
  const lines = cable.lines.join(", ") === above.join(", ") ? [] : [cable.lines.join(", ")];
  const { run } = cable;
  if (run === "busbar") return lines;
  if (run === "not-surveyed") {
    // The cable of an existing circuit is seldom surveyed and nothing here rests on it.
    return tree.node(cable.to).kind === "load" ? lines : [[...lines, "cable not surveyed"].join(", ")];
  }
  const size = [
    ...known(run.lineMm2, (value) => withUnit(value, "mm²", Number.isInteger(value) ? 0 : 1)),
    ...known(run.construction, (value) => value.replaceAll("-", " ")),
  ];
  const route = [
    ...known(run.lengthM, (value) => withUnit(value, "m", 1)),
    ...known(run.method, (value) => `method ${value}`),
  ];
  return [...lines, [...size, ...route].join(", ")];
}

function transformersOn(
  cable: SupplyCable,
  tree: SupplyTree,
  metering: Metering,
): readonly DrawnTransformer[] {
  return (metering?.currentTransformers ?? [])
    .filter((transformer) => transformer.cable === cable.id)
    .map((transformer) => {
      const { misses, seesAll } = transformerView(tree, transformer);
      const { id, conductor, arrow, ratedPrimaryA } = transformer;
      const direction = arrow.state === "known" ? (arrow.value === "towards-load" ? 1 : -1) : 0;
      return {
        id,
        arrow: direction,
        seesAll,
        words: [
          [id, `on ${conductor}`, ...known(ratedPrimaryA, amps)].join(", "),
          direction === 0
            ? "arrow not looked at"
            : direction > 0
              ? "arrow towards the load"
              : "arrow towards the supply",
          conductor === "N"
            ? "on a neutral: no line's current"
            : seesAll
              ? `sees all of ${conductor}`
              : `misses ${misses.map((end) => end.label).join(", ")}`,
        ],
      };
    });
}
