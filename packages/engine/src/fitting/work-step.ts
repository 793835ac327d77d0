/** Something that must be true before a step: met by the job, still unknown, or against it. */
export interface Need {
  readonly words: string;
  readonly state: "met" | "unknown" | "broken";
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

/** A step waits while one of its needs is not met. */
export const isReady = ({ needs }: WorkStep): boolean => needs.every(({ state }) => state === "met");
