import * as z from "zod";
import { fact, number, wholeNumber } from "../fact.ts";

const ARRANGEMENTS = ["TN-S", "TN-C-S", "TT"] as const;
const BONDED_SERVICES = ["water", "gas", "oil", "structural-steel", "lightning-protection", "other"] as const;

/** A rod or group of rods in a line. */
export const rods = z.strictObject({
  soilResistivityOhmM: fact(number(1, 100_000), {
    title: "soil resistivity",
    unit: "Ω·m",
    ask: "Measure with a four-pin test, or take it from a survey; it differs a hundredfold between soils.",
  }),
  lengthM: fact(number(0.1, 100), {
    title: "rod length in the ground",
    unit: "m",
    ask: "Measure or read from the label.",
  }),
  diameterMm: fact(number(1, 200), {
    title: "rod diameter",
    unit: "mm",
    ask: "Measure or read from the label.",
  }),
  count: fact(wholeNumber(1, 10), { title: "number of rods in line", ask: "Count." }),
  spacingM: fact(number(0.1, 100), { title: "spacing of the rods", unit: "m", ask: "Measure." }),
});

/** An earth electrode, measured or still to be designed. */
export const electrode = z
  .strictObject({
    resistanceOhm: fact(number(0, 1_000_000), {
      title: "electrode resistance",
      unit: "Ω",
      ask: "Measure with the electrode disconnected from the installation and the supply isolated; reconnect before re-energising.",
    }),
    rods: rods.nullable(),
  })
  .meta({ id: "electrode" });

export const earthing = z.strictObject({
  arrangement: fact(z.enum(ARRANGEMENTS), {
    title: "earthing arrangement",
    ask: "Look at the cut-out: earth from the cable sheath (TN-S), from the neutral block (TN-C-S, also called PME), or none offered (TT). If in doubt, ask the operator.",
  }),
  electrode: electrode.nullable(),
  earthingConductorMm2: fact(number(0.5, 400), {
    title: "earthing conductor",
    unit: "mm²",
    ask: "Measure or read the conductor to the main earthing terminal.",
  }),
  supplyNeutralMm2: fact(number(1, 400), {
    title: "neutral conductor of the supply, copper equivalent",
    unit: "mm²",
    ask: "Read the service cable, or ask the operator; 35 mm² or less on most house services.",
  }),
  bonding: z
    .array(
      z.strictObject({
        service: z.enum(BONDED_SERVICES),
        mm2: fact(number(0.5, 400), {
          title: "main bonding conductor",
          unit: "mm²",
          ask: "Measure or read the conductor; not-applicable where the service is plastic.",
        }),
      }),
    )
    .max(50),
});
