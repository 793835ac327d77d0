import * as z from "zod";
import { fact, isoDate, number, yesNo } from "../fact.ts";

/** Signs that service equipment is not fit to be left in use. */
const SERVICE_CONCERNS = [
  "heat-marks-or-melting",
  "exposed-live-metal",
  "cover-or-seal-missing",
  "leaking-compound",
  "damp-or-corrosion",
  "damaged-cable-or-sheath",
  "loose-or-unenclosed-tails",
  "fuse-in-neutral",
  "metal-clad-or-rewireable",
  "asbestos",
  "insecure-or-out-of-reach",
  "earth-absent-or-disturbed",
  "meter-tampering",
] as const;

const OPERATOR_ANSWERS = ["may-proceed", "may-not-proceed"] as const;

const lineVoltage = (line: string) =>
  fact(number(0, 500), {
    title: `${line} to neutral voltage at the origin`,
    unit: "V",
    ask: "Measure at the origin with a two-pole tester or meter; live work: only where it cannot be avoided.",
  });

export const supply = z.strictObject({
  phases: z.union([z.literal(1), z.literal(3)]).meta({ description: "Line conductors of the supply." }),
  nominalVoltageV: fact(number(50, 300), {
    title: "nominal voltage, line to neutral",
    unit: "V",
    ask: "Declared by the operator; 230 V on a public low-voltage supply in Great Britain.",
  }),
  measuredVoltageV: z.strictObject({ L1: lineVoltage("L1"), L2: lineVoltage("L2"), L3: lineVoltage("L3") }),
  declaredZeOhm: fact(number(0, 1000), {
    title: "external earth fault loop impedance, declared",
    unit: "Ω",
    ask: "Ask the network operator for the highest value at this supply.",
  }),
  measuredZeOhm: fact(number(0, 10_000), {
    title: "external earth fault loop impedance, measured",
    unit: "Ω",
    ask: "Measure at the origin with the installation isolated and the means of earthing disconnected from it; reconnect before re-energising.",
  }),
  declaredFaultCurrentKa: fact(number(0.01, 100), {
    title: "prospective short-circuit current, declared",
    unit: "kA",
    ask: "Ask the network operator for the highest value at the terminals.",
  }),
  measuredFaultCurrentKa: fact(number(0.01, 100), {
    title: "prospective fault current, measured",
    unit: "kA",
    ask: "Measure at the origin, the higher of line to neutral and line to earth; between lines on three phases.",
  }),
  isLooped: fact(yesNo, {
    title: "looped service",
    ask: "Look for a second cable leaving the cut-out, or ask the operator.",
  }),
  isUnmetered: fact(yesNo, { title: "unmetered supply", ask: "Look for the meter." }),
  serviceConcerns: fact(z.array(z.enum(SERVICE_CONCERNS)).max(SERVICE_CONCERNS.length), {
    title: "signs of unfit service equipment",
    ask: "Look over cut-out, cable, meter and tails without opening anything; an empty list means looked at and sound.",
  }),
  operator: z.strictObject({
    agreedImportLimitA: fact(number(1, 4000), {
      title: "import limit agreed with the operator, per line",
      unit: "A",
      ask: "Find the operator's letter or connection agreement.",
    }),
    agreedExportLimitA: fact(number(0, 4000), {
      title: "export limit agreed with the operator, per line",
      unit: "A",
      ask: "Find the operator's letter or connection agreement.",
    }),
    acceptsLimiter: fact(yesNo, {
      title: "operator counts the managed demand",
      ask: "Ask the operator in writing whether the load manager lowers the demand it judges by.",
    }),
    answer: fact(z.enum(OPERATOR_ANSWERS), {
      title: "operator's answer to the application or question",
      ask: "Apply to or ask the network operator, and wait for the answer before connecting.",
    }),
    notifiedOn: fact(isoDate, {
      title: "day the operator was notified",
      ask: "Enter the day the form was sent.",
    }),
    allowsFuseWithdrawal: fact(yesNo, {
      title: "permission to draw the main fuse",
      ask: "Get it from the network operator or the meter operator; the fuse and its seal are theirs.",
    }),
    agreesLongTails: fact(yesNo, {
      title: "operator agrees to tails over its usual length",
      ask: "Ask the operator.",
    }),
    earthingConductorMinMm2: fact(number(1, 300), {
      title: "smallest earthing conductor the operator accepts",
      unit: "mm²",
      ask: "Ask the operator.",
    }),
  }),
});
