/**
 * Facts of the job that recorded traces settle, with the value to enter.
 *
 * Nothing is entered here: a person reads the value, agrees, and records it as measured.
 *
 * @module
 */
import type { FAILURES } from "../../job/index.ts";
import type { Line } from "../../quantities/index.ts";
import { greatest } from "./excursion.ts";
import type { FallbackTrial } from "./fallback-trial.ts";
import type { JudgedTrace } from "./judge-trace.ts";
import type { Recovery } from "./recovery.ts";
import { LOSSES, type Loss } from "./trace.ts";

/** One fact, and what the traces say it is. */
export interface SettledFact {
  /** Place in the job, such as `limiter.responseS`. */
  readonly path: string;
  readonly failure: (typeof FAILURE_OF)[Loss] | null;
  /** Rounded up to a tenth: what was seen was no more. */
  readonly value: number;
  readonly unit: "s" | "A";
  /** Line and trace on which it was worst. */
  readonly line: Line;
  readonly trace: number;
  readonly atS: number;
  /** Lines with governed charge points on which it was not seen. */
  readonly unseen: readonly Line[];
}

/** What the job calls what was lost. */
const FAILURE_OF = {
  "bus-lost": "bus-lost",
  "meter-lost": "meter-power-lost",
  "manager-lost": "manager-power-lost",
} as const satisfies Record<Loss, (typeof FAILURES)[number]>;

/** Up to a tenth, whatever the last binary digit. */
const upToTenth = (value: number): number => Math.ceil(value * 10 - 1e-9) / 10;

/**
 * What the traces settle: the time to come back under the limit, and the current drawn after each loss.
 *
 * The slowest and the highest of all lines and traces count. A recovery whose end was not seen, or that the
 * rest of the building was too much for, says nothing of the load manager; neither does one over a limit that
 * was not read back. A charge point draws no more than it is offered: what a car drew, that had room to draw
 * more before, stands for the offer.
 */
export function settledFacts(traces: readonly JudgedTrace[]): readonly SettledFact[] {
  return [...response(traces), ...LOSSES.flatMap((loss) => offered(loss, traces))];
}

function response(traces: readonly JudgedTrace[]): readonly SettledFact[] {
  const seen = traces.flatMap(({ lines, bounds }, trace) =>
    bounds.isLimitSet
      ? lines.flatMap(({ line, recoveries }) =>
          recoveries.filter(isManagers).map((recovery) => ({ ...recovery, line, trace })),
        )
      : [],
  );
  const worst = greatest(seen, ({ lengthS }) => lengthS[1]);
  if (worst === null) return [];
  return [
    {
      path: "limiter.responseS",
      failure: null,
      value: upToTenth(worst.lengthS[1]),
      unit: "s",
      line: worst.line,
      trace: worst.trace,
      atS: worst.startS,
      unseen: governedLines(traces).filter((line) => !seen.some((each) => each.line === line)),
    },
  ];
}

const isManagers = ({ lengthS, withoutCarS }: Recovery): boolean =>
  Number.isFinite(lengthS[1]) && withoutCarS === 0;

function offered(loss: Loss, traces: readonly JudgedTrace[]): readonly SettledFact[] {
  const seen = traces.flatMap(({ lines, bounds }, trace) =>
    lines.flatMap(({ line, fallbacks }) => {
      const count = bounds.pointCount[line] ?? 0;
      return fallbacks
        .filter((trial) => trial.what === loss && count > 0 && showsOffer(trial))
        .map((trial) => ({ ...trial, line, trace, eachA: Math.max(0, trial.afterA) / count }));
    }),
  );
  const worst = greatest(seen, ({ eachA }) => eachA);
  if (worst === null) return [];
  return [
    {
      path: `limiter.failures[${FAILURE_OF[loss]}].offeredA`,
      failure: FAILURE_OF[loss],
      value: upToTenth(worst.eachA),
      unit: "A",
      line: worst.line,
      trace: worst.trace,
      atS: worst.atS,
      unseen: governedLines(traces).filter((line) => !seen.some((each) => each.line === line)),
    },
  ];
}

/** The car had something to fall from, and was watched after the time it had. */
const showsOffer = ({ outcome, afterA }: FallbackTrial): boolean =>
  Number.isFinite(afterA) && ["held", "never", "rose"].includes(outcome);

const governedLines = (traces: readonly JudgedTrace[]): readonly Line[] => {
  const bounds = traces[0]?.bounds;
  return (bounds?.lines ?? []).filter((line) => (bounds?.pointCount[line] ?? 0) > 0);
};
