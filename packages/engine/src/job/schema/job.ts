/**
 * The job document, format 1: everything one site needs, in plain JSON.
 *
 * Strict on purpose: an unknown key is refused, because a misspelt `lenghtM` that is silently ignored
 * is a cable of no length. A field that may be unknown on site is a fact and is never left out; write
 * `{ "state": "not-recorded" }`.
 *
 * Units are SI with the unit in the name; currents are per line conductor, rms; import is positive.
 *
 * @module
 */
import * as z from "zod";
import { fact, lines, text, yesNo } from "../fact.ts";
import { cable } from "./cable.ts";
import { car } from "./car.ts";
import { demand } from "./demand.ts";
import { earthing } from "./earthing.ts";
import { limiter } from "./limiter.ts";
import { bus, metering } from "./metering.ts";
import { node } from "./node.ts";
import { person } from "./people.ts";
import { site } from "./site.ts";
import { supply } from "./supply.ts";
import { tests } from "./tests.ts";
import { work } from "./work.ts";

export const FORMAT = "underfuse-job";
export const FORMAT_VERSION = 1;

export const DOCUMENTS = [
  "operator-notice",
  "installation-certificate",
  "test-results",
  "settings-record",
  "labels",
  "customer-guide",
] as const;

export const jobSchema = z
  .strictObject({
    format: z.literal(FORMAT),
    formatVersion: z.literal(FORMAT_VERSION),
    id: text,
    title: text,
    note: lines(5000),
    people: z.array(person).max(50),
    site,
    work,
    supply,
    earthing,
    nodes: z.array(node).min(1).max(20_000),
    cables: z.array(cable).max(20_000),
    demand,
    surge: z.strictObject({
      isFitted: fact(yesNo, { title: "surge protective device fitted", ask: "Look in the board." }),
      hasSeriousConsequence: fact(yesNo, {
        title: "overvoltage could cause injury, loss of a safety service, or great loss",
        ask: "Ask what the building holds and serves.",
      }),
      ownerDeclines: fact(yesNo, {
        title: "owner declines surge protection in writing",
        ask: "Ask the owner, and keep the signature.",
      }),
    }),
    metering: metering.nullable(),
    bus: bus.nullable(),
    limiter: limiter.nullable(),
    cars: z
      .array(car)
      .max(100)
      .default([])
      .meta({ description: "Cars that charge here; empty when nobody has asked." }),
    tests,
    documents: z.array(z.enum(DOCUMENTS)).max(DOCUMENTS.length),
  })
  .meta({
    title: "Underfuse job",
    description: "One site: survey, supply tree, demand, charge points, load manager, tests.",
  });

export type Job = z.infer<typeof jobSchema>;
export type JobNode = Job["nodes"][number];
export type JobCable = Job["cables"][number];
