import * as z from "zod";
import { LINES } from "../../quantities/index.ts";
import { fact, number, wholeNumber, words } from "../fact.ts";

const CONSTRUCTIONS = ["flat-twin-and-earth", "single-core", "multicore", "armoured", "flexible"] as const;
const INSULATIONS = ["pvc-70", "xlpe-90"] as const;
const METALS = ["copper", "aluminium"] as const;
const PROTECTIVE_FORMS = ["core", "separate", "armour", "none"] as const;
const METHODS = ["A", "B", "C", "D", "E", "F", "100", "101", "102", "103"] as const;
const GROUPINGS = [
  "enclosed",
  "layer-on-wall",
  "layer-on-tray",
  "layer-on-ladder",
  "buried-touching",
] as const;

const size = (title: string, ask = "Read the sheath, or measure the strands.") =>
  fact(number(0.5, 400), { title, unit: "mm²", ask });

/** How a length of cable is made and laid. */
export const cableRun = z
  .strictObject({
    construction: fact(z.enum(CONSTRUCTIONS), {
      title: "cable construction",
      ask: "Look at the cable; one with steel wires (SWA) is armoured.",
    }),
    insulation: fact(z.enum(INSULATIONS), {
      title: "conductor insulation",
      ask: "Read the sheath; if it cannot be read, take PVC, 70 °C.",
    }),
    metal: fact(z.enum(METALS), { title: "conductor metal", ask: "Look at a conductor end." }),
    lineMm2: size("line conductor"),
    neutralMm2: size("neutral conductor"),
    protective: z.strictObject({
      form: fact(z.enum(PROTECTIVE_FORMS), {
        title: "form of the protective conductor (CPC)",
        ask: "See whether it is a core, a separate conductor, the armour, or absent.",
      }),
      mm2: size("protective conductor", "Read or measure it; for steel armour take the maker's area."),
    }),
    terminalC: fact(z.union([z.literal(70), z.literal(90)]), {
      title: "temperature the terminals at both ends are rated for",
      unit: "°C",
      ask: "Read the equipment; 70 °C unless it is marked for more.",
    }),
    lengthM: fact(number(0, 5000), {
      title: "cable length",
      unit: "m",
      ask: "Pace or measure the route, one way.",
    }),
    method: fact(z.enum(METHODS), {
      title: "installation method",
      ask: "Choose by how it lies: A in conduit in an insulated wall, B in conduit or trunking, C clipped direct, D in the ground, E or F in free air, 100 to 103 in insulation.",
    }),
    ambientC: fact(number(-30, 90), {
      title: "ambient temperature",
      unit: "°C",
      ask: "Highest around the cable; 30 °C in air and 20 °C in the ground unless warmer.",
    }),
    groupedCircuits: fact(wholeNumber(1, 100), {
      title: "loaded circuits in the group",
      ask: "Count the loaded circuits that touch or share the enclosure, this one included.",
    }),
    grouping: fact(z.enum(GROUPINGS), {
      title: "arrangement of the group",
      ask: "Look at how they lie; not-applicable for a circuit alone.",
    }),
    inInsulationMm: fact(number(0, 10_000), {
      title: "longest length inside thermal insulation",
      unit: "mm",
      ask: "Follow the route; 0 when none.",
    }),
    soilThermalResistivityKmW: fact(number(0.1, 5), {
      title: "soil thermal resistivity",
      unit: "K·m/W",
      ask: "2.5 unless measured; not-applicable above ground.",
    }),
    burialDepthM: fact(number(0.1, 5), {
      title: "depth of laying",
      unit: "m",
      ask: "Measure; not-applicable above ground.",
    }),
  })
  .meta({ id: "cable-run" });

/** A join between two nodes. */
export const cable = z.strictObject({
  id: z
    .string()
    .regex(/^[a-z0-9][a-z0-9-]{0,59}$/, { error: "must be lower-case letters, digits and hyphens" }),
  from: words(60).meta({ description: "Node on the supply side." }),
  to: words(60).meta({ description: "Node on the load side." }),
  lines: z
    .array(z.enum(LINES))
    .min(1)
    .max(3)
    .refine((lines) => new Set(lines).size === lines.length, { error: "must name each line once" })
    .meta({
      description:
        "Lines it carries. The order is the order of the terminals at the load end: L2, L3, L1 puts the load's first line on L2.",
    }),
  run: z.union([z.literal("busbar"), z.literal("not-surveyed"), cableRun]).meta({
    description:
      "A described cable; busbar for a link inside one enclosure; not-surveyed for a cable nobody has looked at, on which no check can be made.",
  }),
});

export type Construction = (typeof CONSTRUCTIONS)[number];
export type Insulation = (typeof INSULATIONS)[number];
export type Method = (typeof METHODS)[number];
export type Grouping = (typeof GROUPINGS)[number];
export type Metal = (typeof METALS)[number];
