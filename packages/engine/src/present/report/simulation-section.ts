import { type RecordedWeek, WEEK_PERIOD_S } from "../../simulation/index.ts";
import type { SimulatedSite } from "../../through-time/index.ts";
import { escapeMarkup as text } from "../escape.ts";
import { withUnit } from "../format.ts";
import {
  energyPerSession,
  fuseMarginYear,
  histogramOfPeaks,
  type Plot,
  timeCurrentChart,
  weekOfCurrent,
} from "../plots/index.ts";
import { simulationView } from "../simulation-view.ts";
import type { ToldSentence } from "../told-sentence.ts";
import { disclosure, list, type Section, table } from "./html.ts";

/** A site run through time, and the week in which its supply carried most. */
export interface SimulationForReport {
  readonly simulated: SimulatedSite;
  readonly week: RecordedWeek;
}

const MARKS = { pass: "✓", fail: "✗", unknown: "?", none: "·" } as const;

/** What the building, the cars, the load manager and the main fuse do through the days that were run. */
export function simulationSection({ simulated, week }: SimulationForReport): Section {
  const view = simulationView(simulated);
  const { plan } = simulated.site;
  const sentences = (told: readonly ToldSentence[]): string =>
    `<ul class="told">${told.map(({ tone, text: sentence }) => `<li><span>${MARKS[tone]}</span> ${text(sentence)}</li>`).join("")}</ul>`;
  return {
    id: "through-time",
    title: "Through time",
    body: [
      `<p>${text(view.title)}</p>`,
      "<h3>The cars</h3>",
      sentences(view.cars),
      figure(sessionsPlot(simulated)),
      "<h3>The supply</h3>",
      sentences(view.supply),
      figure(weekPlot(simulated, week)),
      figure(peaksPlot(simulated)),
      ...(plan.fuse === null ? [] : [figure(fusePlot(simulated)), figure(excursionPlot(simulated))]),
      "<h3>The load manager</h3>",
      sentences(view.timing),
      ...(view.trials.length === 0
        ? []
        : [
            "<h3>If something fails</h3>",
            `<p>${text(view.trialsAre)}</p>`,
            table(
              [
                "",
                "What fails",
                "Fallback",
                "Over the limit",
                "Highest",
                ...(plan.fuse === null ? [] : ["Fuse used"]),
              ],
              view.trials.map(({ tone, what, fallback, over, highest, fuse }) => [
                MARKS[tone],
                what,
                fallback ?? "–",
                over,
                highest,
                ...(fuse === null ? [] : [fuse]),
              ]),
            ),
          ]),
      list(view.remarks),
      disclosure("Taken for granted, because nobody recorded it", list(view.assumed)),
    ].join("\n"),
  };
}

const figure = ({ svg, text: told }: Plot): string =>
  `<figure>${svg}${disclosure(
    "The drawing in words",
    `${list(told.sentences)}${told.table === null ? "" : table(told.table.head, told.table.rows)}`,
  )}</figure>`;

const sessionsPlot = ({ outcome: { sessions } }: SimulatedSite): Plot =>
  energyPerSession({
    id: "sessions",
    title: "Energy wanted and delivered, session by session",
    // A car that stopped by itself wanted no more than it got.
    wantedKwh: sessions.map(({ wantedKwh, deliveredKwh, isFull }) => (isFull ? deliveredKwh : wantedKwh)),
    deliveredKwh: sessions.map(({ deliveredKwh }) => deliveredKwh),
    names: null,
  });

function weekPlot({ site }: SimulatedSite, { firstDay, lines, most }: RecordedWeek): Plot {
  return weekOfCurrent({
    id: "week",
    title: `The week in which the supply carried most, from day ${firstDay + 1}`,
    ...boundsOf(site),
    periodS: WEEK_PERIOD_S,
    lines: lines.map(({ supplyMeanA, supplyMostA, carMeanA, carMostA }, index) => ({
      name: site.lines[index] as string,
      supplyMeanA,
      supplyMaxA: supplyMostA,
      carMeanA,
      carMaxA: carMostA,
    })),
    days: Array.from({ length: 7 }, (_, day) => ({
      period: (day * 86_400) / WEEK_PERIOD_S,
      label: `day ${firstDay + day + 1}`,
    })),
    moment: { period: most.period, line: site.lines[most.line] as string, label: "highest" },
  });
}

const peaksPlot = ({ outcome, site, hidden }: SimulatedSite): Plot =>
  histogramOfPeaks({
    id: "peaks",
    title:
      hidden === null
        ? "Highest one-minute current of each day, on the fullest line"
        : `Highest current of each day, on the fullest line, from means of ${withUnit(hidden.intervalS / 60, "min", 0)} that hide peaks`,
    ...boundsOf(site),
    peaksA: outcome.dayRecords.map(({ peakA }) => Math.max(...peakA)),
    peakOf: "day",
  });

const fusePlot = ({ outcome }: SimulatedSite): Plot =>
  fuseMarginYear({
    id: "fuse",
    title: "Life of the main fuse in use, the most of each day",
    fastFraction: outcome.dayRecords.map(({ fast }) => Math.max(...fast)),
    slowFraction: outcome.dayRecords.map(({ slow }) => Math.max(...slow)),
    firstDayIso: null,
  });

/** Excursions longer than usual, each at the highest current of its line: nearer to melting than it was. */
const excursionPlot = ({ outcome, site }: SimulatedSite): Plot =>
  timeCurrentChart({
    id: "excursions",
    title: "Long excursions beside the curve of the main fuse, each at the highest current of its line",
    ...boundsOf(site),
    band: (site.plan.fuse as NonNullable<typeof site.plan.fuse>).band,
    excursions: outcome.excursions.map(({ line, lengthS }) => ({
      currentA: outcome.lines[line]?.mostA ?? Number.NaN,
      durationS: lengthS,
    })),
  });

const boundsOf = ({ plan, fuseRatingA }: SimulatedSite["site"]) => ({
  limitA: plan.control.limitA - plan.control.marginA,
  fuseA: fuseRatingA,
});
