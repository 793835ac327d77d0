/**
 * Something that must be true before a step: met, unknown or broken by the facts of the job, or to be seen
 * to on site, where no fact of the job can say it.
 */
export interface Need {
  readonly words: string;
  readonly state: "met" | "unknown" | "broken" | "on-site";
  /** Fact of the job that says so. */
  readonly path: string | null;
}

/** One step of the work on site. */
export interface WorkStep {
  readonly id: string;
  readonly title: string;
  /** What is done, sentence by sentence. */
  readonly does: readonly string[];
  readonly needs: readonly Need[];
  /** What must hold throughout for nobody to be hurt; null where the step touches nothing electrical. */
  readonly hold: string | null;
  /** What it leaves ready for the steps after it. */
  readonly leaves: string;
}

/** A step waits while a fact of the job is missing or against it. */
export const isReady = ({ needs }: WorkStep): boolean =>
  needs.every(({ state }) => state === "met" || state === "on-site");

/** How a need that the job does not meet is announced. */
export const NEED_WORDS = { unknown: "Not known", broken: "Not so", "on-site": "First" } as const;
