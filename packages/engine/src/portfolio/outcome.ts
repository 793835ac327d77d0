import { DAY_MIN } from "../demand/index.ts";
import type { Portfolio } from "./portfolio.ts";
import type { PortfolioBlock } from "./portfolio-block.ts";
import { numbersOfHomes, type StreetDay } from "./street-day.ts";

/** What half of the drawn streets stay below, and what one in twenty stays below and one in twenty exceeds. */
export interface OverDraws {
  readonly low: number;
  readonly middle: number;
  readonly high: number;
}

/** How high a number of homes rises together over the season, per home. */
export interface AfterDiversity {
  readonly homes: number;
  /** Highest minute, and highest half-hour. [W per home] */
  readonly minuteW: OverDraws;
  readonly halfHourW: OverDraws;
}

export interface PortfolioOutcome {
  /** Days of a home worked out, and asked for. Fewer when the work was stopped. */
  readonly homeDays: number;
  readonly homeDaysAsked: number;
  /** Fewest and most days that a drawn street has of its season; only streets with a day count. */
  readonly daysPerDraw: { readonly fewest: number; readonly most: number; readonly draws: number };
  readonly byNumber: readonly AfterDiversity[];
  /** Highest current of the feeder's fullest line in the season. [A] */
  readonly lineA: OverDraws;
  /** Minutes of the season in which some line was above the feeder's limit; null where no limit is set. */
  readonly minutesOver: OverDraws | null;
  /** Share of the drawn streets that were above it at all. */
  readonly drawsOverShare: number | null;
  /** Energy of a home and day, its car included. [Wh] */
  readonly energyPerHomeDayWh: number;
  readonly cars: {
    readonly sessions: number;
    /** Share of the energy wanted that was delivered; null where none was wanted. */
    readonly deliveredShare: number | null;
    readonly wantedPerSessionWh: number | null;
  };
  /** Share of all minutes of all homes above the home's own limit, and by the building alone. */
  readonly homeOverShare: number;
  readonly homeOverByBuildingShare: number;
  /** Mean and highest power of the whole feeder in each minute of the day. [W] */
  readonly meanByMinuteW: readonly number[];
  readonly highestByMinuteW: readonly number[];
  readonly days: readonly StreetDay[];
}

/**
 * Puts blocks together, in whatever order and division they come: the sums are of whole numbers, the days stand in
 * their own order.
 *
 * @returns null when the blocks hold no day.
 */
export function portfolioOutcome(
  portfolio: Portfolio,
  blocks: readonly PortfolioBlock[],
): PortfolioOutcome | null {
  const days = blocks
    .flatMap((block) => block.days)
    .sort((a, b) => a.draw - b.draw || a.dayIndex - b.dayIndex);
  if (days.length === 0) return null;
  const { homes, feeder } = portfolio;
  const streets = byDraw(days);
  const perStreet = (of: (street: readonly StreetDay[]) => number): OverDraws => overDraws(streets.map(of));
  const highest = (of: (day: StreetDay) => number): OverDraws =>
    perStreet((street) => Math.max(...street.map(of)));
  const sum = (of: (day: StreetDay) => number): number => days.reduce((total, day) => total + of(day), 0);
  const [sessions, wantedJ] = [sum((day) => day.carSessions), sum((day) => day.carWantedJ)];
  const homeDays = homes * days.length;
  const homeMinutes = homeDays * DAY_MIN;
  return {
    homeDays,
    homeDaysAsked: homes * portfolio.days.count * portfolio.draws,
    daysPerDraw: {
      fewest: Math.min(...streets.map((street) => street.length)),
      most: Math.max(...streets.map((street) => street.length)),
      draws: streets.length,
    },
    byNumber: numbersOfHomes(homes).map((number, place) => ({
      homes: number,
      minuteW: highest((day) => (day.byNumber[place]?.minuteJ ?? 0) / 60 / number),
      halfHourW: highest((day) => (day.byNumber[place]?.halfHourJ ?? 0) / 1800 / number),
    })),
    lineA: highest(({ lineA }) => lineA),
    minutesOver:
      feeder.limitA === null
        ? null
        : perStreet((street) => street.reduce((total, { minutesOver }) => total + minutesOver, 0)),
    drawsOverShare:
      feeder.limitA === null
        ? null
        : streets.filter((street) => street.some(({ minutesOver }) => minutesOver > 0)).length /
          streets.length,
    energyPerHomeDayWh: sum(({ energyJ }) => energyJ) / 3600 / homeDays,
    cars: {
      sessions,
      deliveredShare: wantedJ === 0 ? null : sum((day) => day.carDeliveredJ) / wantedJ,
      wantedPerSessionWh: sessions === 0 ? null : wantedJ / 3600 / sessions,
    },
    homeOverShare: sum((day) => day.homeMinutesOver) / homeMinutes,
    homeOverByBuildingShare: sum((day) => day.homeMinutesOverByBuilding) / homeMinutes,
    meanByMinuteW: byMinute(
      blocks,
      ({ energyByMinuteJ }) => energyByMinuteJ,
      (a, b) => a + b,
    ).map((joules) => joules / 60 / days.length),
    highestByMinuteW: byMinute(blocks, ({ highestByMinuteJ }) => highestByMinuteJ, Math.max).map(
      (joules) => joules / 60,
    ),
    days,
  };
}

/** The days of each drawn street. */
function byDraw(days: readonly StreetDay[]): readonly (readonly StreetDay[])[] {
  const streets = new Map<number, StreetDay[]>();
  for (const day of days) {
    const street = streets.get(day.draw);
    if (street === undefined) streets.set(day.draw, [day]);
    else street.push(day);
  }
  return [...streets.values()];
}

function byMinute(
  blocks: readonly PortfolioBlock[],
  of: (block: PortfolioBlock) => Float64Array,
  join: (a: number, b: number) => number,
): readonly number[] {
  return Array.from({ length: DAY_MIN }, (_, minute) =>
    blocks.reduce((joined, block) => join(joined, of(block)[minute] as number), 0),
  );
}

/** Quantiles by rank: each is the value of one drawn street, none is made up between two. */
function overDraws(values: readonly number[]): OverDraws {
  const sorted = values.toSorted((a, b) => a - b);
  const at = (share: number): number => sorted[Math.ceil(share * sorted.length) - 1] as number;
  return { low: at(0.05), middle: at(0.5), high: at(0.95) };
}
