import { isKnown } from "../worked/index.ts";
import type { Study } from "./study.ts";

/** How long the car may take to the fallback after a loss, and where that comes from. */
export interface TimeToFallback {
  /** Null where no time-out is known. [s] */
  readonly timeS: number | null;
  /** Sentence for the reader. */
  readonly words: string;
}

/**
 * The time a trial of the fallback is judged by: as given, or as the job has it.
 *
 * A time-out of the job is when the fallback is taken; the command and the car take their own time after it:
 *
 *     T = fallbackAfterS + commandS + Tcar
 *
 * @param givenS Time-out given for this judging; it stands alone. [s]
 */
export function timeToFallback(
  { job, figures }: Pick<Study, "job" | "figures">,
  givenS: number | null,
): TimeToFallback {
  const limiter = job.limiter;
  const set = limiter?.fallbackAfterS.state === "known" ? limiter.fallbackAfterS.value : null;
  if (givenS !== null)
    return {
      timeS: givenS,
      words:
        set === null || set === givenS
          ? `Fallback judged by ${givenS} s, as given.`
          : `Fallback judged by ${givenS} s, as given; the job has ${set} s as its time-out.`,
    };
  if (set === null)
    return {
      timeS: null,
      words:
        "No time-out is known, so no fallback can be proved: read it back and record it as limiter.fallbackAfterS, or give --time-out.",
    };
  const commandS = limiter?.commandS.state === "known" ? limiter.commandS.value : 0;
  const car = figures("carFollowsS");
  const carS = isKnown(car) ? car.value : 0;
  return {
    timeS: set + commandS + carS,
    words: `Fallback judged by the job's time-out of ${set} s, ${commandS > 0 ? `${commandS} s for the command ` : ""}and ${carS} s for the car to follow.`,
  };
}
