import * as z from "zod";
import { LINES } from "../../quantities/index.ts";
import { fact, laterFact, number, text, wholeNumber, words } from "../fact.ts";

const CT_OUTPUTS = ["1-A", "5-A", "milliampere", "voltage"] as const;
const CT_CLASSES = ["0.1", "0.2", "0.2S", "0.5", "0.5S", "1", "3", "5"] as const;
const SECONDARY_ENDS = ["meter", "shorted", "open"] as const;
const CLASS_OWNERS = ["transformer", "set-as-tested", "set-exchanged"] as const;
const ARROWS = ["towards-load", "towards-supply"] as const;

const plate = "Read the plate or data sheet.";

/** A current transformer on one conductor of one cable. */
export const currentTransformer = z.strictObject({
  id: words(60),
  cable: words(60),
  conductor: z.enum([...LINES, "N"]),
  channel: z.enum(LINES).meta({ description: "Meter channel it is wired to." }),
  arrow: fact(z.enum(ARROWS), {
    title: "direction of the arrow (P1 to P2)",
    ask: "Look at the arrow or the marks P1 and P2 on the transformer.",
  }),
  output: fact(z.enum(CT_OUTPUTS), { title: "secondary output", ask: plate }),
  ratedPrimaryA: fact(number(1, 10_000), { title: "rated primary current", unit: "A", ask: plate }),
  primaryTurns: fact(wholeNumber(1, 20), {
    title: "primary turns",
    ask: "Count how often the conductor passes through the core.",
  }),
  accuracyClass: fact(z.enum(CT_CLASSES), { title: "accuracy class", ask: plate }),
  ratedBurdenVa: fact(number(0, 100), { title: "rated burden", unit: "VA", ask: plate }),
  leadLengthM: fact(number(0, 500), { title: "lead length, one way", unit: "m", ask: "Measure." }),
  leadMm2: fact(number(0.05, 16), { title: "lead conductor", unit: "mm²", ask: "Read or measure." }),
  secondaryEnd: laterFact(z.enum(SECONDARY_ENDS), {
    title: "where the secondary ends",
    ask: "Before the core closes on a conductor: see both wires at the meter, tight, or joined by a link.",
  }),
  classOwner: laterFact(z.enum(CLASS_OWNERS), {
    title: "what the accuracy class was given to",
    ask: "Read plate and test sheet: the transformer by itself, or a set of meter and transformers tested together; and ask whether any of a set was exchanged or replaced since.",
  }),
});

export const metering = z.strictObject({
  currentTransformers: z.array(currentTransformer).max(30),
  meterClass: fact(text, { title: "meter accuracy class", ask: plate }),
  meterBurdenVa: fact(number(0, 20), { title: "burden of one meter current input", unit: "VA", ask: plate }),
  ratioSetting: fact(number(0.001, 10_000), {
    title: "ratio set in the meter",
    unit: "A/A",
    ask: "Read the setting.",
  }),
});

const BUS_KINDS = ["rs-485", "ethernet", "wireless", "inside-charge-point"] as const;
const PARITIES = ["even", "odd", "none"] as const;

/** The line between meter and load manager. */
export const bus = z.strictObject({
  kind: fact(z.enum(BUS_KINDS), { title: "kind of bus", ask: plate }),
  lengthM: fact(number(0, 2000), { title: "bus length", unit: "m", ask: "Measure." }),
  address: fact(wholeNumber(1, 247), { title: "meter address", ask: "Read the setting." }),
  speedBd: fact(wholeNumber(300, 1_000_000), {
    title: "speed",
    unit: "Bd",
    ask: "Read the setting at both ends.",
  }),
  parity: fact(z.enum(PARITIES), { title: "parity", ask: "Read the setting at both ends." }),
  terminations: fact(wholeNumber(0, 10), {
    title: "termination resistors fitted",
    ask: "Look at both ends; two are wanted on a long line.",
  }),
  polarisations: fact(wholeNumber(0, 10), {
    title: "polarisation points",
    ask: "Look or read the setting; one place only.",
  }),
});
