import { type Check, decide, holds } from "./check.ts";
import { leavesOf, valueIf } from "./evaluate.ts";
import type { FactQuantity } from "./quantity.ts";

/** The value of one fact at which a check would turn the other way. */
export interface TurningPoint {
  readonly fact: FactQuantity;
  readonly value: number;
  /** Which way the fact must go from its present value to reach it. */
  readonly direction: "above" | "below";
}

/** How far from its present value a fact is followed: a thousand times, or to zero. */
const FARTHEST = 1000;
const HALVINGS = 200;

/**
 * Finds where a decided check turns when one fact alone changes.
 *
 * Searches away from the present value on both sides, by doubling distance, then halves the bracket;
 * the nearer turn wins. Returns null when the check does not turn within a thousand times the value,
 * or does not rest on the fact. Facts are taken as non-negative, as every fact with a unit here is.
 * Tables chosen on the way stay as chosen (see `valueIf`).
 */
export function turningPoint(check: Check, fact: FactQuantity): TurningPoint | null {
  const result = decide(check);
  if (result.state === "unknown") return null;
  const { left, right } = result;
  if (
    ![left, right].some((side) =>
      leavesOf(side).some((leaf) => leaf.kind === "fact" && leaf.path === fact.path),
    )
  ) {
    return null;
  }
  const state = (value: number) =>
    holds(valueIf(left, fact.path, value), check.relation, valueIf(right, fact.path, value));
  const now = result.state === "holds";

  const reach = (direction: 1 | -1): number | null => {
    let near = fact.value;
    for (let distance = Math.max(fact.value, 1) * 1e-6; ; distance *= 2) {
      const far = Math.max(0, fact.value + direction * distance);
      if (state(far) !== now) return bisect(near, far);
      if (far === 0 || distance > FARTHEST * Math.max(fact.value, 1)) return null;
      near = far;
    }
  };
  const bisect = (sameSide: number, otherSide: number): number => {
    let [near, far] = [sameSide, otherSide];
    for (let halving = 0; halving < HALVINGS; halving++) {
      const middle = (near + far) / 2;
      if (middle === near || middle === far) break;
      if (state(middle) === now) near = middle;
      else far = middle;
    }
    // A turn counts from the last value with the present verdict: "passes until 0.71" still passes at 0.71.
    return near;
  };

  const [above, below] = [reach(1), reach(-1)];
  if (above === null && below === null) return null;
  const isAboveNearer = below === null || (above !== null && above - fact.value <= fact.value - below);
  return isAboveNearer
    ? { fact, value: above as number, direction: "above" }
    : { fact, value: below as number, direction: "below" };
}
