import * as z from "zod";
import { isoDate, words } from "../job/index.ts";
import { LINES } from "../quantities/index.ts";
import { BUS_OBSERVATIONS } from "./bus-causes.ts";

export const READINGS_FORMAT = "underfuse-readings";

/** Greatest number a meter's register can hold, as a float of 32 bits; whatever was misread lies under it. */
const MOST = 3.5e38;

const any = z.number().min(-MOST).max(MOST).meta({ description: "As shown, sign included." });
const perLine = (value: z.ZodNumber) => z.strictObject({ L1: value, L2: value, L3: value }).partial();

/** What one channel of the meter shows. The unit stands in the name; give what can be read and no more. */
const channel = z
  .strictObject({
    volts: any,
    amps: any,
    watts: any,
    kilowatts: any,
    vars: any,
    kilovars: any,
    powerFactor: any,
  })
  .partial();

const step = z.strictObject({
  id: words(60),
  what: words(200).optional().meta({ description: "What was done, in words." }),
  chargePoint: z
    .strictObject({
      offeredA: z.number().min(0).max(1000).meta({ description: "Current offered to the car, per line." }),
      lines: z.array(z.enum(LINES)).max(3).meta({ description: "Lines of the supply it should draw on." }),
      drawnA: perLine(z.number().min(0).max(1000))
        .optional()
        .meta({ description: "What the charge point itself measures." }),
    })
    .optional()
    .meta({ description: "Absent where the car draws nothing." }),
  loads: z
    .array(
      z.strictObject({
        what: words(60).optional(),
        line: z.enum(LINES),
        watts: z.number().min(1).max(100_000),
      }),
    )
    .max(20)
    .optional()
    .meta({ description: "Loads of known size that are on in this step and were off before." }),
  generation: z.enum(["off", "on", "none", "unknown"]).optional(),
  meter: z
    .strictObject({
      L1: channel,
      L2: channel,
      L3: channel,
      totalWatts: any,
      totalKilowatts: any,
      totalVars: any,
    })
    .partial(),
  clampA: perLine(z.number().min(0).max(100_000))
    .optional()
    .meta({ description: "Clamp meter round the whole line conductor at the cut-out or meter tails." }),
});

export const readingsSchema = z
  .strictObject({
    format: z.literal(READINGS_FORMAT),
    formatVersion: z.literal(1),
    job: words(200).optional(),
    takenOn: isoDate.optional(),
    chain: words(40)
      .optional()
      .meta({ description: "Mark of the chain these readings were taken of; a proof names it." }),
    bus: z
      .array(z.enum(BUS_OBSERVATIONS))
      .max(BUS_OBSERVATIONS.length)
      .optional()
      .meta({ description: "What was seen of the bus and of time." }),
    steps: z.array(step).min(1).max(200),
  })
  .meta({
    title: "Underfuse readings",
    description: "What the meter showed while something known was done, step by step.",
  });

export type Readings = z.infer<typeof readingsSchema>;
export type ReadingStep = Readings["steps"][number];

export const readingsJsonSchema = (): unknown => z.toJSONSchema(readingsSchema, { io: "input" });
