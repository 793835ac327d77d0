import * as z from "zod";
import { fact, isoDate, laterFact, number, text, words, yesNo } from "../fact.ts";
import { overcurrentDevice, residualDevice } from "./devices.ts";
import { electrode } from "./earthing.ts";

/** How a load counts in the diversity allowances. */
const PURPOSES = [
  "lighting",
  "heating-and-power",
  "cooker",
  "cooker-with-socket",
  "motor",
  "instantaneous-water-heater",
  "thermostatic-water-heater",
  "storage-or-floor-heating",
  "standard-circuit",
  "other-socket-or-fixed",
  "heat-pump",
] as const;
const BOARD_FORMS = ["consumer-unit", "distribution-board"] as const;
const OUTLETS = ["socket", "tethered"] as const;
const OPEN_PEN_METHODS = [
  "three-phase-balance",
  "low-resistance-electrode",
  "device-with-earth-reference",
  "device-with-voltage-window",
  "other-device",
  "separate-electrode",
  "isolating-transformer",
  "none",
] as const;

const common = {
  id: z
    .string()
    .regex(/^[a-z0-9][a-z0-9-]{0,59}$/, { error: "must be lower-case letters, digits and hyphens" }),
  label: words(80).meta({ description: "Name on the drawing and in messages." }),
};

const origin = z.strictObject({ ...common, kind: z.literal("origin") });
const cutOut = z.strictObject({ ...common, kind: z.literal("cut-out"), overcurrent: overcurrentDevice });
const meter = z.strictObject({ ...common, kind: z.literal("meter") });
const isolator = z.strictObject({
  ...common,
  kind: z.literal("isolator"),
  overcurrent: overcurrentDevice.nullable().meta({ description: "null for a plain switch." }),
  residual: residualDevice.nullable(),
});
const connectorBlock = z.strictObject({ ...common, kind: z.literal("connector-block") });
const board = z.strictObject({
  ...common,
  kind: z.literal("board"),
  form: fact(z.enum(BOARD_FORMS), {
    title: "kind of board",
    ask: "Read the label: BS EN 61439-3 consumer unit, or distribution board.",
  }),
  residual: residualDevice
    .nullable()
    .meta({ description: "One that protects the whole board; null when none." }),
});
const way = z.strictObject({
  ...common,
  kind: z.literal("way"),
  overcurrent: overcurrentDevice,
  discriminatesUpToA: laterFact(number(1, 200_000), {
    title: "fault current up to which the maker states discrimination with the main fuse",
    unit: "A",
    ask: "Read the discrimination (selectivity) table of the device's maker, or ask for it, naming the main fuse.",
  }),
  residual: residualDevice.nullable(),
});
const load = z.strictObject({
  ...common,
  kind: z.literal("load"),
  purpose: z.enum(PURPOSES),
  ratedA: fact(number(0, 1600), {
    title: "full-load current per line",
    unit: "A",
    ask: "Read the rating plate and divide watts by the marked voltage; for a circuit of sockets take its device rating.",
  }),
});
const chargePoint = z.strictObject({
  ...common,
  kind: z.literal("charge-point"),
  ratedA: fact(number(6, 250), {
    title: "highest current the charge point offers, per line",
    unit: "A",
    ask: "Read the rating plate.",
  }),
  declaredOutputW: fact(number(1000, 200_000), {
    title: "declared output",
    unit: "W",
    ask: "Read the rating plate or data sheet.",
  }),
  isOutdoors: fact(yesNo, {
    title: "outdoors, or likely to charge a vehicle outdoors",
    ask: "See where the vehicle stands.",
  }),
  isPrivate: fact(yesNo, {
    title: "private charge point",
    ask: "Ask who may use it: home and workplace points are private.",
  }),
  soldOn: fact(isoDate, { title: "day of sale", ask: "See the invoice." }),
  outlet: fact(z.enum(OUTLETS), { title: "outlet", ask: "See whether it has a socket or its own lead." }),
  isMode3: fact(yesNo, { title: "mode 3", ask: "Read the data sheet." }),
  hasStatusIndicator: fact(yesNo, { title: "status indicator", ask: "Look at the charge point." }),
  inletIp: fact(z.string().regex(/^IP[0-6X][0-9X]/), {
    title: "degree of protection",
    ask: "Read the rating plate: IPX4 or better outdoors.",
  }),
  overcurrentInside: overcurrentDevice
    .nullable()
    .meta({ description: "A device inside the charge point, ahead of the outlet; null when none." }),
  residualInside: residualDevice.nullable().meta({ description: "null when none." }),
  detectsDirectCurrent: fact(yesNo, {
    title: "6 mA direct-current detection inside",
    ask: "Read the data sheet: RDC-DD to IEC 62955.",
  }),
  openPen: z.strictObject({
    method: fact(z.enum(OPEN_PEN_METHODS), {
      title: "protection against a broken supply neutral (open PEN)",
      ask: "Decide how an outdoor point on a TN-C-S supply is protected; read the data sheet when it is inside the charge point.",
    }),
    isInsideChargePoint: fact(yesNo, {
      title: "open-neutral device is inside the charge point",
      ask: "Read the data sheet.",
    }),
    hasEarthReference: fact(yesNo, {
      title: "true earth reference",
      ask: "Read the data sheet: a measurement electrode or a reference made from three lines.",
    }),
    hasMakersStatement: fact(yesNo, {
      title: "maker's statement of equal safety",
      ask: "Ask the maker in writing.",
    }),
    recloses: fact(yesNo, { title: "closes by itself onto the fault", ask: "Read the data sheet." }),
    electrode: electrode.nullable(),
    isNearEarthedMetal: fact(yesNo, {
      title: "can be touched together with metal on the supply's earth",
      ask: "Stand where the vehicle is charged and look for anything earthed within reach, above and below ground.",
    }),
  }),
  smart: z.strictObject({
    hasStatement: fact(yesNo, { title: "statement of compliance on file", ask: "Ask the seller." }),
    offersDefaultHours: fact(yesNo, {
      title: "offers default charging hours at first use",
      ask: "See at first use.",
    }),
    randomDelayDefaultS: fact(number(0, 86_400), {
      title: "random delay as set",
      unit: "s",
      ask: "Read the setting.",
    }),
    randomDelayCapabilityS: fact(number(0, 86_400), {
      title: "longest random delay it can be set to",
      unit: "s",
      ask: "Read the data sheet.",
    }),
    chargesWithoutNetwork: fact(yesNo, {
      title: "charges with the network away",
      ask: "Unplug or switch off the network and start a charge.",
    }),
  }),
  exportA: fact(number(0, 250), {
    title: "current it can feed back, per line",
    unit: "A",
    ask: "Read the data sheet; not-applicable when it only charges.",
  }),
});
const generator = z.strictObject({
  ...common,
  kind: z.literal("generator"),
  source: fact(text, { title: "kind of generation", ask: "See what it is: solar, wind, engine." }),
  exportA: fact(number(0, 1600), {
    title: "generator rated current per line",
    unit: "A",
    ask: "Read the inverter's plate.",
  }),
});
const storage = z.strictObject({
  ...common,
  kind: z.literal("storage"),
  importA: fact(number(0, 1600), {
    title: "storage charging current per line",
    unit: "A",
    ask: "Read the plate.",
  }),
  exportA: fact(number(0, 1600), {
    title: "storage discharging current per line",
    unit: "A",
    ask: "Read the plate.",
  }),
});

/** A point of the supply tree. */
export const node = z.discriminatedUnion("kind", [
  origin,
  cutOut,
  meter,
  isolator,
  connectorBlock,
  board,
  way,
  load,
  chargePoint,
  generator,
  storage,
]);
