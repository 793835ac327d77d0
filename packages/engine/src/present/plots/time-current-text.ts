import { type TimeCurrentBand, timeOnEdge } from "../../protection/index.ts";
import { highestText } from "./amps.ts";
import { countText, numberText } from "./number-text.ts";
import type { PlotNames, PlotText } from "./plot.ts";
import { type Bounds, missingReferences, references } from "./references.ts";

export interface TimeCurrentChart extends PlotNames, Bounds {
  /** Fast and slow edge; see `protection/time-current.ts`. */
  readonly band: TimeCurrentBand;
  /** Currents above 0 and durations above 0; others cannot stand on a logarithmic axis and are counted only. */
  readonly excursions: readonly HeldCurrent[];
}

/** A current held for a time. */
export interface HeldCurrent {
  readonly currentA: number;
  readonly durationS: number;
}

/** What a cold fuse does in an excursion: before its fast edge, between its edges, at or after its slow edge. */
export type Fate = "holds" | "may-melt" | "melts";
export const FATES: readonly Fate[] = ["holds", "may-melt", "melts"];

export interface JudgedCurrent extends HeldCurrent {
  readonly fate: Fate;
  /** Duration as a share of the time on the fast edge; 0 where the fuse need not melt at all. */
  readonly share: number;
}

/** Whether a value can stand on a logarithmic axis. */
export const isOnLog = (value: number): boolean => value >= 1e-12 && value <= 1e12;

/** The excursions that a chart can show, and what each does to the fuse. */
export const judged = (
  excursions: readonly HeldCurrent[],
  { fast, slow }: TimeCurrentBand,
): readonly JudgedCurrent[] =>
  excursions
    .filter(({ currentA, durationS }) => isOnLog(currentA) && isOnLog(durationS))
    .map(({ currentA, durationS }) => {
      const mayMeltS = timeOnEdge(fast, currentA, "fast");
      const meltsS = timeOnEdge(slow, currentA, "slow");
      return {
        currentA,
        durationS,
        fate: durationS < mayMeltS ? "holds" : durationS < meltsS ? "may-melt" : "melts",
        share: durationS / mayMeltS,
      };
    });

const WORST_COUNT = 5;

export function timeCurrentText(chart: TimeCurrentChart, points: readonly JudgedCurrent[]): PlotText {
  const { band, excursions } = chart;
  const known = references(chart).filter(({ valueA }) => isOnLog(valueA));
  const count = (fate: Fate): string => numberText(points.filter((point) => point.fate === fate).length, 0);
  const worst = points.toSorted((a, b) => b.share - a.share || b.currentA - a.currentA).slice(0, WORST_COUNT);
  const [first] = worst;
  const absent = excursions.length - points.length;
  const hasBand = band.fast.length > 0 && band.slow.length > 0;
  return {
    sentences: [
      hasBand
        ? `Time-current band of the main fuse, and ${countText(points.length, "excursion")}.`
        : `${countText(points.length, "excursion")}. The time-current band of the fuse is not known, so none can be judged.`,
      ...(first === undefined
        ? ["There is no excursion to show."]
        : hasBand
          ? [
              `The fuse holds in ${count("holds")}, may melt in ${count("may-melt")}, melts in ${count("melts")}.`,
              first.share === 0
                ? "None reaches the current from which it can melt."
                : `The nearest to melting is ${highestText(first.currentA)} for ${secondsText(first.durationS)}; on the fast edge it takes ${secondsText(timeOnEdge(band.fast, first.currentA, "fast"))}, on the slow edge ${secondsText(timeOnEdge(band.slow, first.currentA, "slow"))}.`,
            ]
          : []),
      ...missingReferences(known),
      ...(absent > 0
        ? [`Left out, without a current and a duration above zero: ${numberText(absent, 0)}.`]
        : []),
      ...(points.length > 0 ? ["Where points lie on each other, only the nearest to melting is drawn."] : []),
    ],
    table:
      first === undefined || !hasBand
        ? null
        : {
            head: ["Current", "Lasted", "Fast edge", "Slow edge"],
            rows: worst.map(({ currentA, durationS }) => [
              highestText(currentA),
              secondsText(durationS),
              secondsText(timeOnEdge(band.fast, currentA, "fast")),
              secondsText(timeOnEdge(band.slow, currentA, "slow")),
            ]),
          },
  };
}

/** Seconds with three digits that count. */
function secondsText(timeS: number): string {
  if (timeS === Number.POSITIVE_INFINITY) return "no melting";
  const decimals = timeS === 0 ? 0 : Math.min(4, Math.max(0, 2 - Math.floor(Math.log10(timeS))));
  return numberText(timeS, decimals, "nearest", "s");
}
