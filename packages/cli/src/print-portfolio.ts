import { type OverDraws, type Portfolio, type PortfolioOutcome, roundTo } from "@underfuse/engine";
import { createColors } from "picocolors";
import { wrapped } from "./print.ts";

/** The date of a day counted from 1 January as 0, in years of 365 days: those of 2023. */
const dateOf = (day: number): Date => new Date(Date.UTC(2023, 0, 1 + (day % 365)));

/** Month and day of such a day. */
export const monthDay = (day: number): string => dateOf(day).toISOString().slice(5, 10);

const dayInWords = (day: number): string =>
  dateOf(day).toLocaleDateString("en-GB", {
    day: "numeric",
    month: "long",
    timeZone: "UTC",
  });

const count = (value: number): string => Math.round(value).toLocaleString("en-GB");
/** A demand, which is rounded up. */
const kilo = (watts: number): string => roundTo(watts / 1000, "up", 2).toFixed(2);
const percent = (share: number, decimals = 1): string => `${(share * 100).toFixed(decimals)} %`;
const clock = (minute: number): string =>
  `${String(Math.floor(minute / 60)).padStart(2, "0")}:${String(minute % 60).padStart(2, "0")}`;

/** What the drawn streets came to, in at most eighty columns. */
export function portfolioText(portfolio: Portfolio, outcome: PortfolioOutcome, isColourful: boolean): string {
  const colours = createColors(isColourful);
  const { byNumber, cars, daysPerDraw, homeDays, homeDaysAsked } = outcome;
  const isComplete = homeDays === homeDaysAsked;
  const days =
    daysPerDraw.fewest === daysPerDraw.most
      ? `${daysPerDraw.most}`
      : `${daysPerDraw.fewest} to ${daysPerDraw.most}`;
  return [
    colours.bold(wrapped(portfolio.title)),
    wrapped(
      `${count(portfolio.homes)} ${portfolio.homes === 1 ? "home" : "homes"}, ${days} ${days === "1" ? "day" : "days"} from ${dayInWords(portfolio.days.first)}, ${daysPerDraw.draws === 1 ? "one street" : `${daysPerDraw.draws} streets`} drawn: ${count(homeDays)} days of a home.`,
    ),
    ...(isComplete
      ? []
      : [
          colours.yellow(
            wrapped(
              `Stopped early: ${count(homeDaysAsked)} days of a home were asked for. What is left out may rise higher than what stands here.`,
            ),
          ),
        ]),
    "",
    colours.bold("Demand after diversity, highest of the season, kW per home"),
    `${"homes".padStart(7)}   ${"one minute".padEnd(26)}half-hour`,
    ...byNumber.map(
      ({ homes, minuteW, halfHourW }) =>
        `${count(homes).padStart(7)}   ${band(minuteW, kilo).padEnd(26)}${band(halfHourW, kilo)}`,
    ),
    wrapped(
      "Middle of the drawn streets; in brackets what one in twenty stays below and one in twenty exceeds.",
    ),
    "",
    colours.bold("Feeder"),
    wrapped(
      `Fullest line at its highest minute: ${band(outcome.lineA, (amps) => String(Math.ceil(amps)))} A.`,
    ),
    ...feederLimit(portfolio, outcome).map((line) => wrapped(line)),
    wrapped(`Energy: ${(outcome.energyPerHomeDayWh / 1000).toFixed(1)} kWh a day and home, cars included.`),
    "",
    colours.bold("Cars and homes"),
    wrapped(
      cars.deliveredShare === null
        ? "No car was plugged in."
        : `${count(cars.sessions)} plug-ins wanted ${((cars.wantedPerSessionWh ?? 0) / 1000).toFixed(1)} kWh each; ${percent(cars.deliveredShare)} of it was delivered, ${portfolio.cars.managedAtHome ? "each car held to what its home's limit left" : "no car held back"}.`,
    ),
    wrapped(
      `Homes were above their own ${portfolio.homeLimitA} A for ${minutesAMonth(outcome.homeOverShare)} a month on average, ${minutesAMonth(outcome.homeOverByBuildingShare)} of that by the building alone.`,
    ),
    "",
    colours.dim(
      wrapped(
        "A model of this project's own on published figures of appliances in households around 2008. It shows how demand spreads and what cars add; it does not replace the network operator's own figure.",
      ),
    ),
  ].join("\n");
}

const band = ({ low, middle, high }: OverDraws, say: (value: number) => string): string =>
  `${say(middle)} (${say(low)} to ${say(high)})`;

function feederLimit(
  { feeder }: Portfolio,
  { drawsOverShare, minutesOver, daysPerDraw }: PortfolioOutcome,
): readonly string[] {
  if (feeder.limitA === null || drawsOverShare === null || minutesOver === null) return ["No limit is set."];
  const over = Math.round(drawsOverShare * daysPerDraw.draws);
  return over === 0
    ? [`Its limit of ${feeder.limitA} A was held in every minute of every street.`]
    : [
        `Its limit of ${feeder.limitA} A was exceeded in ${over} of ${daysPerDraw.draws} streets: ${band(minutesOver, count)} minutes of the season.`,
      ];
}

/** A share of time as minutes of a month of thirty days. */
const minutesAMonth = (share: number): string => {
  const minutes = share * 30 * 1440;
  return `${minutes < 10 ? minutes.toFixed(1) : count(minutes)} min`;
};

/** Every day of every drawn street as a table of comma-separated values. */
export function portfolioCsv({ days, homes }: Portfolio, outcome: PortfolioOutcome): string {
  const head =
    "street,day,month_day,highest_minute_kW,highest_half_hour_kW,fullest_line_A,fullest_at,minutes_over_limit,energy_kWh,plug_ins,wanted_kWh,delivered_kWh,home_minutes_over_limit";
  const kwh = (joules: number): string => (joules / 3.6e6).toFixed(3);
  const rows = outcome.days.map((day) => {
    const all = day.byNumber.find((number) => number.homes === homes);
    return [
      day.draw + 1,
      day.dayIndex + 1,
      monthDay(days.first + day.dayIndex),
      ((all?.minuteJ ?? 0) / 60_000).toFixed(3),
      ((all?.halfHourJ ?? 0) / 1_800_000).toFixed(3),
      day.lineA.toFixed(2),
      clock(day.minute),
      day.minutesOver,
      kwh(day.energyJ),
      day.carSessions,
      kwh(day.carWantedJ),
      kwh(day.carDeliveredJ),
      day.homeMinutesOver,
    ].join(",");
  });
  return `${[head, ...rows].join("\n")}\n`;
}
