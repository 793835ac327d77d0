import type { LocatedJob } from "../job/index.ts";
import type { SettledFact } from "../proving/index.ts";
import { withUnit } from "./format.ts";

/** What to enter into a job where a trace settled a fact; the job itself is never written. */
export interface SettledView {
  readonly path: string;
  readonly sentence: string;
}

/** @param names Of the traces, in their order. */
export function settledView(
  facts: readonly SettledFact[],
  job: Pick<LocatedJob, "limiter">,
  names: readonly string[],
): readonly SettledView[] {
  return facts.map((fact) => {
    const { path, value, unit, line, trace, atS, unseen, failure } = fact;
    const shown = withUnit(value, unit, 1);
    const where = `${line} at ${withUnit(atS, "s", Number.isInteger(atS) ? 0 : 1)}${names.length > 1 ? ` in ${names[trace]}` : ""}`;
    const recorded = recordedOf(fact, job);
    return {
      path,
      sentence: [
        failure === null
          ? `Enter responseS = ${shown}, measured: the slowest, on ${where}.`
          : `Enter offeredA = ${shown} for the failure ${failure}, measured: the most one charge point drew, on ${where}.`,
        recorded === null || recorded === value
          ? ""
          : `The job has ${withUnit(recorded, unit, 1)}; keep the one that was measured after the last change.`,
        unseen.length === 0 ? "" : `It was not seen on ${unseen.join(", ")}.`,
      ]
        .filter((part) => part !== "")
        .join(" "),
    };
  });
}

function recordedOf({ failure }: SettledFact, { limiter }: Pick<LocatedJob, "limiter">): number | null {
  const fact =
    failure === null
      ? limiter?.responseS
      : limiter?.failures.find((item) => item.failure === failure)?.offeredA;
  return fact?.state === "known" ? fact.value : null;
}
