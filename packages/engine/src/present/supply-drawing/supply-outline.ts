import type { DrawnNode } from "./drawn-supply.ts";

/** One line of the drawing in words, with its depth. */
export interface OutlineLine {
  readonly depth: number;
  readonly text: string;
}

/** The drawing in words: every node with its feed and its transformers, indented where the supply splits. */
export function supplyOutline(root: DrawnNode): readonly OutlineLine[] {
  const lines: OutlineLine[] = [];
  const waiting: { node: DrawnNode; depth: number }[] = [{ node: root, depth: 0 }];
  for (let next = waiting.pop(); next !== undefined; next = waiting.pop()) {
    const { node, depth } = next;
    const feed =
      node.feed === null || node.feed.words.length === 0 ? "" : `by ${node.feed.words.join(", ")}: `;
    for (const { words } of node.transformers)
      lines.push({ depth, text: `current transformer ${words.join(", ")}` });
    lines.push({ depth, text: `${feed}${[node.title, ...node.words].join(", ")}` });
    const deeper = depth + (node.children.length > 1 ? 1 : 0);
    for (const child of [...node.children].reverse()) waiting.push({ node: child, depth: deeper });
  }
  return lines;
}
