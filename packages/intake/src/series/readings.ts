/**
 * Whether a value is the energy of its interval or what a register stood at.
 *
 * Energy of intervals rises about as often as it falls. A register rises and rises; it falls when it starts anew
 * each day, rolls over or is exchanged. Taken for each other they are wrong by hundreds, so what is neither by its
 * numbers or by its heading is asked for.
 *
 * @module
 */
import type { Notes } from "../notes.ts";
import type { Statements } from "../statements.ts";
import { tidy } from "../table/tidy-heading.ts";
import { type Movement, movementOf } from "./movement.ts";
import type { Placed } from "./placed.ts";
import type { SeriesUnit } from "./unit.ts";

/** What a file says a value is, and where. */
export interface SaidReadings {
  readonly kind: "interval" | "register";
  readonly because: string;
}

/** Fewer falls than one to so many rises are those of a register: on any day of intervals every second value falls. */
const RISES_TO_A_FALL = 4;
/** Headings that say nothing but that it counts up; "total" and "reading" are said of intervals as well. */
const COUNTS_UP = /\b(cumul\w*|accum\w*|running|register\w*|counter|lifetime|today|so far|to date|since)\b/i;

/** True where the values are what a register stood at. */
export function concludeReadings(
  told: {
    readonly placed: Placed;
    readonly unit: SeriesUnit;
    readonly stepS: number;
    /** Headings of the columns of values. */
    readonly headings: readonly string[];
    /** Null where the file says nothing of it but by its numbers and headings. */
    readonly readings: SaidReadings | null;
  },
  stated: Statements,
  notes: Notes,
): boolean {
  const { placed, unit, readings, headings } = told;
  if (unit !== "kWh") {
    if (stated.readings === "register" || readings?.kind === "register")
      notes.refuse({
        code: "STATEMENT_CONTRADICTED",
        line: 0,
        found: `a register of ${unit}`,
        message:
          "Only energy stands in a register. State the unit of the register, or that a value is of its interval.",
      });
    return false;
  }
  if (readings !== null && stated.readings === undefined) {
    notes.conclude("readings", READINGS[readings.kind], readings.because);
    return readings.kind === "register";
  }
  if (stated.readings !== undefined) {
    notes.conclude("readings", READINGS[stated.readings], "stated", "stated");
    return stated.readings === "register";
  }
  const moved = placed.channels.map(({ values }) => movementOf(values, told.stepS));
  const rising = moved.find(isOfRegister);
  const counting = headings.find((heading) => COUNTS_UP.test(tidy(heading)));
  if (rising === undefined && counting === undefined) {
    const [{ riseCount, fallCount } = { riseCount: 0, fallCount: 0 }] = moved;
    notes.conclude(
      "readings",
      READINGS.interval,
      `the values rise ${times(riseCount)} and fall ${times(fallCount)}`,
    );
    return false;
  }
  notes.ask({
    id: "readings",
    asks: "Is a value the energy of its interval, or what a register stood at?",
    because: [
      ...(counting === undefined ? [] : [`the heading "${counting}" may be that of a register`]),
      ...(rising === undefined ? [] : [risingWords(rising, placed)]),
    ].join(", and "),
    answers: [
      { answer: "interval", means: READINGS.interval },
      { answer: "register", means: READINGS.register },
    ],
  });
  return false;
}

const isOfRegister = ({ riseCount, fallCount, isDaily }: Movement): boolean =>
  riseCount > 0 && (isDaily || riseCount >= RISES_TO_A_FALL * fallCount);

function risingWords({ riseCount, fallCount, firstFall, isDaily }: Movement, { lineOf }: Placed): string {
  if (firstFall === null) return "the values never fall, as those of a register do not";
  const { slot, before, after } = firstFall;
  return `the values rise ${times(riseCount)} and fall ${times(fallCount)}, first on line ${lineOf(slot)}, ${after} after ${before}: ${
    isDaily
      ? "a counter that starts anew each day falls so"
      : "a register falls so that rolls over, starts anew or is exchanged"
  }`;
}

const times = (count: number): string => (count === 1 ? "once" : `${count} times`);

const READINGS = {
  interval: "each value is the energy of its interval",
  register: "each value is what a register stood at",
} as const;
