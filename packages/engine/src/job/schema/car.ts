import * as z from "zod";
import { fact, number, text, words } from "../fact.ts";

const clock = z.string().regex(/^([01]\d|2[0-3]):[0-5]\d$/, { error: "must be a time of day such as 18:30" });

/** A car that charges here, and how it is used. Everything about it may be unknown. */
export const car = z.strictObject({
  id: text,
  chargePoint: words(60).meta({ description: "Charge point it is plugged into." }),
  onboardA: fact(number(6, 250), {
    title: "most the car takes, per line",
    unit: "A",
    ask: "From the car's handbook: the current of its on-board charger, not of the cable.",
  }),
  lineCount: fact(z.union([z.literal(1), z.literal(3)]), {
    title: "lines the car charges on",
    ask: "From the car's handbook: one line or three.",
  }),
  batteryKwh: fact(number(1, 1000), {
    title: "usable capacity of the battery",
    unit: "kWh",
    ask: "From the car's handbook.",
  }),
  sessionKwh: fact(number(0.1, 1000), {
    title: "energy wanted on a usual evening",
    unit: "kWh",
    ask: "Ask how far the car is driven between charges; about 0.2 kWh a kilometre.",
  }),
  chargesPerWeek: fact(number(0.1, 14), {
    title: "charges a week",
    ask: "Ask on how many evenings a week the car is plugged in.",
  }),
  arrives: fact(clock, { title: "time the car is usually plugged in", ask: "Ask." }),
  leaves: fact(clock, { title: "time the car must be ready", ask: "Ask." }),
});
