import { chosenRow, given, type Job, type Located, type LocatedFact } from "../job/index.ts";
import { type Figures, isKnown, type Quantity, step } from "../worked/index.ts";
import type { MeteringFigure, MeteringTables } from "./tables.ts";

export type Transformer = Located<NonNullable<Job["metering"]>["currentTransformers"][number]>;

export interface BurdenInputs {
  readonly transformer: Transformer;
  readonly meterBurdenVa: LocatedFact<number>;
  readonly tables: MeteringTables;
  readonly figures: Figures<MeteringFigure>;
}

/** What hangs on a current transformer's secondary at rated current. */
export interface Burden {
  readonly lead: Quantity;
  readonly total: Quantity;
  /** Longest lead, one way, with which the rated burden is kept. */
  readonly longestLead: Quantity;
  readonly rated: Quantity;
}

/**
 * Whether an open secondary may reach a dangerous voltage: everything but a known voltage output.
 *
 * Many transformers of milliampere output limit their own voltage, and not all do; one of unknown output is
 * taken as the worst.
 */
export const mayHurtOpen = ({ output }: Transformer): boolean =>
  output.state !== "known" || output.value !== "voltage";

/** Whether a class may be relied on: not where part of a set tested together was exchanged. */
export const isClassKept = ({ classOwner }: Transformer): boolean =>
  !(classOwner.state === "known" && classOwner.value === "set-exchanged");

export const isCurrentOutput = ({ output }: Transformer): boolean =>
  output.state === "known" && (output.value === "1-A" || output.value === "5-A");

/** Rated secondary current. [A] */
export const ratedSecondary = ({ output }: Transformer, tables: MeteringTables): Quantity =>
  chosenRow({ symbol: "Isr", label: "rated secondary current", unit: "A" }, { output }, (known) => {
    const row = tables.ratedSecondary.find((item) => item.output === known.output);
    return row && { value: row.amps, citation: row.citation };
  });

/**
 * Burden of lead, contacts and meter.
 *
 *     S = Isr² · (Rlead + Rc) + Sm,   Rlead = 2 · L · r · (1 + α · (T − 20)) / 1000
 *
 * Two conductors for each transformer, no common return. The lead is taken as fine-stranded copper.
 *
 * Source: Ohm's law; resistances of IEC 60228 class 5 and 6.
 */
export function secondaryBurden({ transformer, meterBurdenVa, tables, figures }: BurdenInputs): Burden {
  const Isr = ratedSecondary(transformer, tables);
  const meter = given(meterBurdenVa, "Sm");
  const rated = given(transformer.ratedBurdenVa, "Sr");
  const perMetre = step({
    symbol: "rl",
    label: "resistance of the lead, both ways, warm",
    unit: "Ω/m",
    clause: "transformer-burden",
    formula: "2 * r20 / 1000 * (1 + alpha * (T - 20))",
    inputs: {
      r20: leadResistance(transformer.leadMm2, tables),
      alpha: figures("copperTemperatureFactor"),
      T: figures("leadTemperature"),
    },
    compute: ({ r20, alpha, T }) => ((2 * r20) / 1000) * (1 + alpha * (T - 20)),
  });
  const lead = step({
    symbol: "Sl",
    label: "burden of the lead at rated current",
    unit: "VA",
    clause: "transformer-burden",
    formula: "Isr * Isr * L * rl",
    inputs: { Isr, L: given(transformer.leadLengthM, "L"), rl: perMetre },
    compute: ({ Isr: amps, L, rl }) => amps * amps * L * rl,
  });
  const contacts = figures("secondaryContacts");
  return {
    lead,
    rated,
    total: step({
      symbol: "S",
      label: "burden on the transformer at rated current",
      unit: "VA",
      clause: "transformer-burden",
      formula: "Sl + Isr * Isr * Rc + Sm",
      inputs: { Sl: lead, Isr, Rc: contacts, Sm: meter },
      compute: ({ Sl, Isr: amps, Rc, Sm }) => Sl + amps * amps * Rc + Sm,
    }),
    longestLead: step({
      symbol: "Lmax",
      label: "longest lead, one way, within the rated burden",
      unit: "m",
      clause: "transformer-burden",
      formula: "max(0, ((Sr - Sm) / (Isr * Isr) - Rc) / rl)",
      inputs: { Sr: rated, Sm: meter, Isr, Rc: contacts, rl: perMetre },
      compute: ({ Sr, Sm, Isr: amps, Rc, rl }) => Math.max(0, ((Sr - Sm) / (amps * amps) - Rc) / rl),
    }),
  };
}

const leadResistance = (leadMm2: LocatedFact<number>, tables: MeteringTables): Quantity =>
  chosenRow(
    { symbol: "r20", label: "resistance of the lead's conductor at 20 °C", unit: "Ω/km" },
    { leadMm2 },
    (known) => {
      const row = tables.leadResistance.find(({ mm2 }) => mm2 === known.leadMm2);
      return row && { value: row.ohmPerKm, citation: row.citation };
    },
  );

/** The thinnest tabled lead with which the rated burden is kept; undefined when none does or something is unknown. */
export function leadThatWouldDo(inputs: BurdenInputs): number | undefined {
  return inputs.tables.leadResistance.find(({ mm2 }) => {
    const leadMm2 = {
      ...inputs.transformer.leadMm2,
      state: "known",
      value: mm2,
      basis: "assumed",
    } as LocatedFact<number>;
    const { total, rated } = secondaryBurden({ ...inputs, transformer: { ...inputs.transformer, leadMm2 } });
    return isKnown(total) && isKnown(rated) && total.value <= rated.value;
  })?.mm2;
}
