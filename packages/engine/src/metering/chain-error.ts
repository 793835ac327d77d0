import { chosenRow, given, type LocatedFact } from "../job/index.ts";
import { type Figures, isKnown, type Quantity, step, unknownFigure } from "../worked/index.ts";
import { isClassKept, type Transformer } from "./burden.ts";
import type { MeteringFigure, MeteringTables } from "./tables.ts";

/** Greatest error of the chain at one current, and what is expected of it. */
export interface ChainError {
  /** All parts at their worst together: what a load manager must keep as its margin. [%] */
  readonly worst: Quantity;
  /** Expanded uncertainty, k = 2, with each part anywhere within its limit. [%] */
  readonly expanded: Quantity;
}

/** Rated primary current as the conductor sees it: divided by how often it passes through. [A] */
export const effectivePrimary = (transformer: Transformer): Quantity =>
  step({
    symbol: "Ipr",
    label: "rated primary current, for the turns made",
    unit: "A",
    clause: "transformer-rating",
    formula: "Ipl / N",
    inputs: { Ipl: given(transformer.ratedPrimaryA, "Ipl"), N: given(transformer.primaryTurns, "N") },
    compute: ({ Ipl, N }) => Ipl / N,
  });

/**
 * Error of transformer, meter and position together.
 *
 *     worst = eCT + eM + ep;   k = 2: 2/√3 · √(eCT² + eM² + ep²)
 *
 * @param current Current the fuse carries. [A]
 *
 * Source: class limits as printed; combination of rectangular distributions by the law of propagation.
 */
export function chainError(
  current: Quantity,
  chain: {
    readonly transformer: Transformer;
    readonly meterClass: LocatedFact<string>;
    readonly tables: MeteringTables;
    readonly figures: Figures<MeteringFigure>;
  },
): ChainError {
  const { transformer, meterClass, tables, figures } = chain;
  const inputs = {
    eCT: classLimit(current, transformer, tables),
    eM: meterLimit(meterClass, tables),
    ep: figures("transformerPositionError"),
  };
  return {
    worst: step({
      symbol: "e",
      label: "greatest error of transformer, meter and position together",
      unit: "%",
      clause: "chain-error",
      formula: "eCT + eM + ep",
      inputs,
      compute: ({ eCT, eM, ep }) => eCT + eM + ep,
    }),
    expanded: step({
      symbol: "U",
      label: "uncertainty of the chain, k = 2",
      unit: "%",
      clause: "chain-error",
      formula: "2 / sqrt(3) * sqrt(eCT^2 + eM^2 + ep^2)",
      inputs,
      compute: ({ eCT, eM, ep }) => (2 / Math.sqrt(3)) * Math.hypot(eCT, eM, ep),
    }),
  };
}

/** Limit of the transformer's class at a current: that of the highest tabled point not above it. */
function classLimit(current: Quantity, transformer: Transformer, tables: MeteringTables): Quantity {
  const rated = effectivePrimary(transformer);
  const named = { symbol: "eCT", label: "ratio error allowed by the transformer's class", unit: "%" };
  const { accuracyClass, ratedPrimaryA, primaryTurns } = transformer;
  if (!isKnown(current)) return { ...current, ...named };
  if (!isKnown(rated)) return { ...rated, ...named };
  const percent = (100 * current.value) / rated.value;
  if (!isClassKept(transformer)) return unknownFigure(named, `${named.label}, whose set was exchanged`);
  return chosenRow(named, { accuracyClass, ratedPrimaryA, primaryTurns }, (known) => {
    const row = tables.classLimits.findLast(
      (item) => item.accuracyClass === known.accuracyClass && item.percent <= percent * (1 + 1e-9),
    );
    return row && { value: row.ratioPercent, citation: row.citation };
  });
}

function meterLimit(meterClass: LocatedFact<string>, tables: MeteringTables): Quantity {
  const named = { symbol: "eM", label: "error allowed by the meter's class", unit: "%" };
  return chosenRow(named, { meterClass }, (known) => {
    const wanted = known.meterClass.replace(/class/i, "").trim().toUpperCase();
    const row = tables.meterClasses.find((item) => item.meterClass === wanted);
    return row && { value: row.percent, citation: row.citation };
  });
}

/** Least current at which the transformer's class promises anything. [A] */
export function leastCurrentInClass(transformer: Transformer, tables: MeteringTables): Quantity {
  const { accuracyClass } = transformer;
  const percent = chosenRow(
    { symbol: "pmin", label: "least share of rated current in the class", unit: "%" },
    { accuracyClass },
    (known) => {
      const row = tables.classLimits.find((item) => item.accuracyClass === known.accuracyClass);
      return row && { value: row.percent, citation: row.citation };
    },
  );
  return step({
    symbol: "Icl",
    label: "least current at which the transformer's class promises anything",
    unit: "A",
    clause: "transformer-low-end",
    formula: "pmin / 100 * Ipr",
    inputs: { pmin: percent, Ipr: effectivePrimary(transformer) },
    compute: ({ pmin, Ipr }) => (pmin / 100) * Ipr,
  });
}
