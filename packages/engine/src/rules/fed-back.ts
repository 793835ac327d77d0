import { given } from "../job/index.ts";
import type { Line } from "../quantities/index.ts";
import type { SupplyTree } from "../supply/index.ts";
import type { Quantity } from "../worked/index.ts";

/** Rated current of everything on a line that can feed back: generation, storage, vehicles. */
export const fedBackOn = (tree: SupplyTree, line: Line): readonly Quantity[] =>
  tree
    .endsCarried(tree.serviceCable, line)
    .flatMap((end) =>
      end.kind === "load" || end.exportA.state === "not-applicable"
        ? []
        : [given(end.exportA, "I", `${end.label}, fed back`)],
    );
