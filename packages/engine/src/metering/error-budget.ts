import type { LocatedFact } from "../job/index.ts";
import { type Figures, isKnown, type Quantity } from "../worked/index.ts";
import { isClassKept, type Transformer } from "./burden.ts";
import { chainError, effectivePrimary } from "./chain-error.ts";
import type { MeteringFigure, MeteringTables } from "./tables.ts";

/** Greatest errors of the chain at one current; null where a class promises nothing or is unknown. */
export interface BudgetRow {
  /** [A] */
  readonly currentA: number;
  /** All parts at their worst together, and k = 2. [%] */
  readonly worstPercent: number | null;
  readonly expandedPercent: number | null;
  /** The worst, in amperes, watts and vars at the load's power factor. */
  readonly errorA: number | null;
  readonly errorW: number | null;
  readonly errorVar: number | null;
}

/**
 * Error of the whole chain at several currents.
 *
 *     errorW = e·P + δ·Q,   errorVar = e·Q + δ·P
 *
 * with e the greatest ratio error of all parts and δ the phase displacement the transformer's class
 * allows there. An inductive load's power factor turns a phase displacement into watts.
 *
 * @param currentsA Operating points. [A]
 * @param load Voltage to neutral and power factor, lagging. [V], 0 to 1
 *
 * Source: power of a displaced phasor to first order; class limits as printed.
 */
export function errorBudget(
  currentsA: readonly number[],
  load: { readonly voltageV: number; readonly powerFactor: number },
  chain: {
    readonly transformer: Transformer;
    readonly meterClass: LocatedFact<string>;
    readonly tables: MeteringTables;
    readonly figures: Figures<MeteringFigure>;
  },
): readonly BudgetRow[] {
  const known = (quantity: Quantity): number | null => (isKnown(quantity) ? quantity.value : null);
  return currentsA.map((currentA) => {
    const { worst, expanded } = chainError(operatingPoint(currentA), chain);
    const worstPercent = known(worst);
    const phaseRad = phaseLimitRad(currentA, chain.transformer, chain.tables);
    const apparent = currentA * load.voltageV;
    const P = apparent * load.powerFactor;
    const Q = apparent * Math.sqrt(1 - load.powerFactor ** 2);
    const share = worstPercent === null ? null : worstPercent / 100;
    const both = (own: number, other: number): number | null =>
      share === null || phaseRad === null ? null : share * own + phaseRad * other;
    return {
      currentA,
      worstPercent,
      expandedPercent: known(expanded),
      errorA: share === null ? null : share * currentA,
      errorW: both(P, Q),
      errorVar: both(Q, P),
    };
  });
}

const operatingPoint = (value: number): Quantity => ({
  kind: "fact",
  symbol: "I",
  label: "current considered",
  unit: "A",
  value,
  path: "metering",
  basis: "assumed",
  onIso: null,
});

function phaseLimitRad(currentA: number, transformer: Transformer, tables: MeteringTables): number | null {
  const rated = effectivePrimary(transformer);
  const { accuracyClass } = transformer;
  if (!isKnown(rated) || accuracyClass.state !== "known" || !isClassKept(transformer)) return null;
  const percent = (100 * currentA) / rated.value;
  const row = tables.classLimits.findLast(
    (item) => item.accuracyClass === accuracyClass.value && item.percent <= percent * (1 + 1e-9),
  );
  return row?.phaseMin == null ? null : (row.phaseMin / 60) * (Math.PI / 180);
}
