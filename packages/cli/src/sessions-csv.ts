import type { SimulatedSite } from "@underfuse/engine";

const DAY_S = 86_400;

/**
 * Sessions one by one, as a table. A moment is the day of the run and the time of day by the clock; its date is
 * counted on from the first day recorded, and left empty where the building is drawn.
 */
export function sessionsCsv({ outcome, site, terms }: SimulatedSite): string {
  const { from } = terms.building;
  const moment = (atS: number): readonly (string | number)[] => {
    const wholeS = Math.round(atS);
    const day = Math.floor(wholeS / DAY_S);
    const time = new Date((wholeS - day * DAY_S) * 1000).toISOString().slice(11, 19);
    const date =
      from === null ? "" : new Date(Date.parse(from) + day * DAY_S * 1000).toISOString().slice(0, 10);
    return [day + 1, date, time];
  };
  const rows = outcome.sessions.map(({ car, startS, untilS, wantedKwh, deliveredKwh, isFull }) =>
    [
      cell(site.plan.cars[car]?.id ?? String(car)),
      ...moment(startS),
      ...moment(untilS),
      wantedKwh.toFixed(3),
      deliveredKwh.toFixed(3),
      isFull ? "yes" : "no",
    ].join(","),
  );
  return `${[HEADINGS, ...rows].join("\n")}\n`;
}

const HEADINGS =
  "car,from day,from date,from time,until day,until date,until time,wanted kWh,delivered kWh,full";

const cell = (text: string): string => (/[",\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text);
