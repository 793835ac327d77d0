import type { Unit } from "../statements.ts";

/** Units a series is kept in: energy of the interval, mean power, or mean current. */
export type SeriesUnit = "kWh" | "W" | "A";

/** A unit that a series is kept in, and the power of ten that turns a number of the file into it. */
export interface KeptUnit {
  readonly unit: SeriesUnit;
  readonly powerOfTen: number;
}

/** How a unit becomes one that a series is kept in. */
export const KEPT_AS: Readonly<Record<Unit, KeptUnit>> = {
  kWh: { unit: "kWh", powerOfTen: 0 },
  Wh: { unit: "kWh", powerOfTen: -3 },
  MWh: { unit: "kWh", powerOfTen: 3 },
  kW: { unit: "W", powerOfTen: 3 },
  W: { unit: "W", powerOfTen: 0 },
  MW: { unit: "W", powerOfTen: 6 },
  A: { unit: "A", powerOfTen: 0 },
};

/** True for watts and watt-hours, which nobody counts in thousandths. */
export const isSmall = (kept: KeptUnit | null): boolean => kept === KEPT_AS.W || kept === KEPT_AS.Wh;

const WORDS: readonly [unit: Unit, pattern: RegExp][] = [
  ["kWh", /(?<![a-z])(kwh|kilowatt[ -]?hours?)(?![a-z])/i],
  ["MWh", /(?<![a-z])(mwh|megawatt[ -]?hours?)(?![a-z])/i],
  ["Wh", /(?<![a-z])(wh|watt[ -]?hours?)(?![a-z])/i],
  ["kW", /(?<![a-z])(kw|kilowatts?)(?![a-z])/i],
  ["MW", /(?<![a-z])(MW|megawatts?)(?![a-z])/],
  ["W", /(?<![a-z])(w|watts?)(?![a-z])/i],
  ["A", /(?<![a-z])(amps?|amperes?)(?![a-z])/i],
  // A letter alone is a unit only where it stands last or in brackets: "phase A" and "A/E" are none.
  ["A", /[([]A[)\]]|(?<![Pp]hase|[Ll]ine|[Cc]hannel|[Mm]eter|[Gg]roup)[ _]A$|^A$/],
];

/** The unit that a heading names; null where it names none. */
export function unitIn(heading: string): Unit | null {
  return WORDS.find(([, pattern]) => pattern.test(heading))?.[0] ?? null;
}
