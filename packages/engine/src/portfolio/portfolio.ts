import * as z from "zod";
import { words } from "../job/index.ts";

export const PORTFOLIO_FORMAT = "underfuse-portfolio";

const share = z.number().min(0).max(1);

const cars = z.strictObject({
  share: share.meta({ description: "Share of homes with a car that charges there." }),
  rateA: z.number().min(6).max(80).meta({ description: "Current of a charging car, on one line. [A]" }),
  plugInsPerWeek: z.number().min(0).max(7).meta({ description: "At most one a day." }),
  energyMedianKwh: z
    .number()
    .min(0.1)
    .max(200)
    .meta({ description: "Energy wanted at a plug-in: half of them want less. [kWh]" }),
  energySpread: z.number().min(0).max(2).meta({
    description: "Standard deviation of the natural logarithm of that energy; 0 where all want the same.",
  }),
  arrivalHour: z.number().min(0).max(24).meta({ description: "Mean hour of plugging in. [h from midnight]" }),
  arrivalSpreadH: z.number().min(0).max(24).meta({ description: "Standard deviation of that hour. [h]" }),
  pluggedInH: z
    .number()
    .min(0.5)
    .max(20)
    .meta({ description: "How long a car stays plugged in; then it leaves, full or not. [h]" }),
  tariff: z
    .strictObject({
      startHour: z.number().min(0).max(24).meta({ description: "When the cheap hours begin. [h]" }),
      lengthH: z.number().min(0.5).max(20).meta({ description: "How long they last. [h]" }),
      followedShare: share.meta({ description: "Share of cars that wait for them." }),
    })
    .nullable()
    .meta({ description: "One cheap rate that all cars on it share; null where none waits." }),
  randomDelayS: z
    .number()
    .int()
    .min(0)
    .max(1800)
    .meta({ description: "A start is put off by a time drawn evenly from 0 to this. [s]" }),
  managedAtHome: z.boolean().meta({
    description: "Whether each car is held to what its home's supply limit leaves, with nothing below 6 A.",
  }),
});

/** A street or an estate behind one feeder, as statistics: what its homes have, its cars, and its limit. */
export const portfolioSchema = z
  .strictObject({
    format: z.literal(PORTFOLIO_FORMAT),
    formatVersion: z.literal(1),
    title: words(200),
    homes: z.number().int().min(1).max(20_000),
    electricShowerShare: share.meta({ description: "Share of homes with an electric shower." }),
    heatPumpShare: share.meta({ description: "Share of homes with a heat pump." }),
    ownedShares: z
      .record(z.string().max(40), share)
      .optional()
      .meta({ description: "Shares of other appliances, by their names, in place of the published ones." }),
    homeLimitA: z
      .number()
      .min(10)
      .max(400)
      .meta({ description: "Current each home's supply may carry, on its one line. [A]" }),
    cars,
    feeder: z.strictObject({
      lines: z.union([z.literal(1), z.literal(3)]).meta({
        description: "Line conductors. Homes are put on them in turn.",
      }),
      voltageV: z.number().min(100).max(300).meta({ description: "Line to neutral. [V]" }),
      limitA: z
        .number()
        .min(1)
        .max(100_000)
        .nullable()
        .meta({ description: "Current no line may exceed; null where none is set. [A]" }),
    }),
    days: z.strictObject({
      first: z.number().int().min(0).max(364).meta({
        description: "First day, counted from 1 January as 0; 304 is 1 November. Day 0 is a Monday.",
      }),
      count: z.number().int().min(1).max(3650),
    }),
    draws: z.number().int().min(1).max(1000).meta({
      description: "How many such streets are drawn; the interval of every result is over them.",
    }),
  })
  .meta({ title: "Portfolio", description: "Homes behind one feeder, as statistics." });

export type Portfolio = z.infer<typeof portfolioSchema>;
export const portfolioJsonSchema = (): unknown => z.toJSONSchema(portfolioSchema, { io: "input" });
