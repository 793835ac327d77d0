import type { KeptEstimate, LinearFilter } from "./linear-filter.ts";

/** One course of events: which loose terminals were bad in which steps so far, as far as it matters. */
interface Branch {
  readonly kept: KeptEstimate;
  logDensity: number;
  leastLoad: number;
}

/**
 * The likeliest courses a loose terminal may have taken, from step to step.
 *
 * Good or bad in every step would be two to the power of the steps; all but the likeliest few are
 * dropped, which can only make a loose terminal look less likely than it is.
 */
export class LooseBranches {
  private parents: Branch[];
  private children: Branch[];
  private parentCount = 0;
  private childCount = 0;

  constructor(filter: LinearFilter) {
    const made = (count: number): Branch[] =>
      Array.from({ length: count }, () => ({ kept: filter.keepsake(), logDensity: 0, leastLoad: 0 }));
    this.parents = made(4 * MOST_KEPT);
    this.children = made(4 * MOST_KEPT);
  }

  /** Begins with one course. */
  begin(filter: LinearFilter, logDensity: number): void {
    this.parentCount = 0;
    this.childCount = 0;
    this.add(filter, logDensity, 0);
    this.endStep();
  }

  get count(): number {
    return this.parentCount;
  }

  /** Sets the filter to a course as it stood before this step. */
  resume(filter: LinearFilter, index: number): Readonly<Branch> {
    const branch = this.parents[index] as Branch;
    filter.restore(branch.kept);
    return branch;
  }

  /** Notes where a course has come to in this step. */
  add(filter: LinearFilter, logDensity: number, leastLoad: number): void {
    const branch = this.children[this.childCount++] as Branch;
    filter.keep(branch.kept);
    branch.logDensity = logDensity;
    branch.leastLoad = leastLoad;
  }

  /** Keeps the likeliest; returns the logarithm of the density of all kept. */
  endStep(): number {
    const { children, childCount } = this;
    const used = children.slice(0, childCount).sort((a, b) => b.logDensity - a.logDensity);
    this.children = this.parents;
    this.parents = [...used, ...children.slice(childCount)];
    this.parentCount = Math.min(childCount, MOST_KEPT);
    this.childCount = 0;
    return this.logSum(({ logDensity }) => logDensity);
  }

  /** Logarithm of the density of all kept, each lessened by what speaks against its loads. */
  logTotal(): number {
    return this.logSum(({ logDensity, leastLoad }) => logDensity + leastLoad);
  }

  private logSum(of: (branch: Branch) => number): number {
    const values = this.parents.slice(0, this.parentCount).map(of);
    const most = Math.max(...values);
    if (most === Number.NEGATIVE_INFINITY) return most;
    return most + Math.log(values.reduce((sum, value) => sum + Math.exp(value - most), 0));
  }
}

const MOST_KEPT = 4;
