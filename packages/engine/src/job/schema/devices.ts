import * as z from "zod";
import { fact, number, yesNo } from "../fact.ts";

const OVERCURRENT_STANDARDS = [
  "bs-en-60898",
  "bs-en-61009",
  "bs-en-60947-2",
  "bs-88-2",
  "bs-88-3",
  "bs-1361-i",
  "bs-1361-ii",
  "bs-3036",
] as const;
const CURVES = ["B", "C", "D"] as const;
const RESIDUAL_TYPES = ["AC", "A", "F", "B"] as const;

const label = "Read the device.";

/** A fuse or circuit-breaker. */
export const overcurrentDevice = z
  .strictObject({
    standard: fact(z.enum(OVERCURRENT_STANDARDS), {
      title: "overcurrent device standard",
      ask: "Read the device: BS EN 60898 is a circuit-breaker (MCB), BS EN 61009 one with residual current protection (RCBO).",
    }),
    curve: fact(z.enum(CURVES), {
      title: "circuit-breaker type",
      ask: "Read the letter before the rating; not-applicable for a fuse.",
    }),
    ratingA: fact(number(0.5, 1600), { title: "overcurrent device rating", unit: "A", ask: label }),
    breakingCapacityKa: fact(number(0.1, 200), {
      title: "breaking capacity",
      unit: "kA",
      ask: "Read it on the device, in a box as amperes: 6000 is 6 kA.",
    }),
  })
  .meta({ id: "overcurrent-device" });

/** A residual current device, or the residual current part of a combined one. */
export const residualDevice = z
  .strictObject({
    type: fact(z.enum(RESIDUAL_TYPES), {
      title: "residual current device (RCD) type",
      ask: "Read the wave symbol or letters on the device.",
    }),
    ratedResidualMa: fact(number(1, 3000), {
      title: "rated residual operating current",
      unit: "mA",
      ask: label,
    }),
    isTimeDelayed: fact(yesNo, {
      title: "time-delayed residual current device",
      ask: "Look for S in a box.",
    }),
    opensAllLiveConductors: fact(yesNo, {
      title: "opens line and neutral",
      ask: "Read the contact diagram: every live conductor must have a contact.",
    }),
  })
  .meta({ id: "residual-device" });

export type OvercurrentStandard = (typeof OVERCURRENT_STANDARDS)[number];
export type Curve = (typeof CURVES)[number];
export type OvercurrentDevice = z.infer<typeof overcurrentDevice>;
export type ResidualDevice = z.infer<typeof residualDevice>;
