import * as z from "zod";
import { LINES } from "../../quantities/index.ts";
import { fact, isoDate, number, text, wholeNumber, words } from "../fact.ts";

const missingLoads = z.array(words(60)).max(1000).meta({
  description:
    "Loads and storage of the tree that the recording does not contain: fitted later, or switched off at the time.",
});

/** The highest current somebody recorded at the supply. */
const recordedMaximum = z.strictObject({
  kind: z.literal("recorded-maximum"),
  id: text,
  line: z.enum(LINES),
  maximumA: fact(number(0, 4000), {
    title: "recorded maximum current",
    unit: "A",
    ask: "Read the logger or the maximum demand register.",
  }),
  averagingMin: fact(number(0.01, 1440), {
    title: "averaging time of the recording",
    unit: "min",
    ask: "Read the logger's setting; 30 min for most meters.",
  }),
  days: fact(number(0.01, 4000), {
    title: "length of the recording",
    unit: "days",
    ask: "Read first and last day.",
  }),
  doesNotInclude: missingLoads,
});

/** A recording in a file beside the job. */
const intervalSeries = z.strictObject({
  kind: z.literal("interval-series"),
  id: text,
  line: z.enum(LINES),
  file: words(300).regex(/^(?!\/|[A-Za-z]:|.*\.\.)[^\\]+$/, {
    error: "must be a path below the job's folder, with forward slashes",
  }),
  columns: z
    .strictObject({
      delimiter: z.enum([",", ";", "\t"]),
      date: words(100),
      dateOrder: z.enum(["day/month/year", "year-month-day"]),
      time: words(100),
      current: words(100),
    })
    .meta({ description: "How the file is laid out: names from its first row." }),
  unit: z.literal("A"),
  intervalS: wholeNumber(1, 3600),
  labels: z
    .enum(["start", "end"])
    .meta({ description: "Whether a row's time is the start or the end of its interval." }),
  from: isoDate,
  until: isoDate.meta({ description: "Last day that counts, included." }),
  doesNotInclude: missingLoads,
});

const demandEvidence = z.discriminatedUnion("kind", [recordedMaximum, intervalSeries]);

export const demand = z.strictObject({
  recordings: z.array(demandEvidence).max(30).meta({
    description:
      "Measured evidence. The list of circuits is read from the supply tree and needs no entry here.",
  }),
});
