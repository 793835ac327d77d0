import { type Check, decide, holds } from "./check.ts";
import { asFunctionOf } from "./evaluate.ts";
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
/** Relative width at which a bracket counts as a point. */
const NARROW = 1e-12;

/**
 * Finds where a decided check turns when one fact alone changes.
 *
 * Searches away from the present value on both sides, each step four times as far, then narrows the bracket; the
 * nearer turn wins. Returns null when the check does not turn within a thousand times the value,
 * or does not rest on the fact. Facts are taken as non-negative, as every fact with a unit here is.
 * Tables chosen on the way stay as chosen (see `asFunctionOf`).
 */
export function turningPoint(check: Check, fact: FactQuantity): TurningPoint | null {
  const result = decide(check);
  if (result.state === "unknown") return null;
  const { left, right } = result;
  const [leftAt, rightAt] = [asFunctionOf(left, fact.path), asFunctionOf(right, fact.path)];
  if (leftAt === undefined && rightAt === undefined) return null;
  const sample = (at: number): Sample => {
    const [l, r] = [leftAt?.(at) ?? left.value, rightAt?.(at) ?? right.value];
    const stands = holds(l, check.relation, r) === (result.state === "holds");
    return { at, stands, gap: Math.abs(r - l) };
  };

  const reach = (direction: 1 | -1): number | null => {
    const scale = Math.max(fact.value, 1);
    let near = sample(fact.value);
    for (let distance = scale * 1e-3; ; distance *= 4) {
      const far = sample(Math.max(0, fact.value + direction * distance));
      if (!far.stands) return narrowed(near, far, sample);
      if (far.at === 0 || distance > FARTHEST * scale) return null;
      near = far;
    }
  };

  const [above, below] = [reach(1), reach(-1)];
  if (above === null && below === null) return null;
  const isAboveNearer = below === null || (above !== null && above - fact.value <= fact.value - below);
  return isAboveNearer
    ? { fact, value: above as number, direction: "above" }
    : { fact, value: below as number, direction: "below" };
}

interface Sample {
  readonly at: number;
  /** Whether the present verdict stands here. */
  readonly stands: boolean;
  /** How far apart the two sides are: where to look next, no more. */
  readonly gap: number;
}

/**
 * Narrows a bracket by false position, halving every third time so that it cannot stall, and gives the end on which
 * the present verdict still stands: "passes until 0.71" still passes at 0.71.
 */
function narrowed(standing: Sample, turned: Sample, sample: (at: number) => Sample): number {
  let [near, far] = [standing, turned];
  for (
    let round = 0;
    round < 100 && Math.abs(far.at - near.at) > NARROW * Math.max(1, Math.abs(near.at));
    round++
  ) {
    const share = round % 3 === 2 ? 0.5 : near.gap / (near.gap + far.gap);
    const middle = sample(near.at + (far.at - near.at) * (share > 0 && share < 1 ? share : 0.5));
    if (middle.stands) near = middle;
    else far = middle;
  }
  return near.at;
}
