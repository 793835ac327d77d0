import { given, type Job, type Located } from "../job/index.ts";
import { type Figures, type Quantity, step } from "../worked/index.ts";

export type Electrode = NonNullable<Located<Job["earthing"]["electrode"]>>;
type Rods = NonNullable<Electrode["rods"]>;
export type RodFigure = `rodGroupFactor${2 | 3 | 4 | 5 | 6 | 7 | 8 | 9 | 10}`;

/**
 * Resistance of an electrode: as measured; failing that, estimated from its rods.
 *
 * A measurement always wins. An estimate rests on the soil resistivity, which is seldom known within a
 * factor of two and rises when the ground dries or freezes.
 */
export function electrodeResistance(electrode: Electrode, figures: Figures<RodFigure>): Quantity {
  const measured = given(electrode.resistanceOhm, "RA");
  if (measured.kind !== "unknown" || electrode.rods === null) return measured;
  return rodResistance(electrode.rods, figures);
}

/**
 * Resistance of one rod, or of a group of equal rods in line.
 *
 *     R  = ρ / (2π · L) · (ln(8 · L / d) − 1)
 *     Rn = R · (1 + λ · α) / n       α = ρ / (2π · R · s)
 *
 * Source: [bs7430].
 */
function rodResistance(rods: Rods, figures: Figures<RodFigure>): Quantity {
  const [ρ, L, d] = [
    given(rods.soilResistivityOhmM, "ρ"),
    given(rods.lengthM, "L"),
    given(rods.diameterMm, "d"),
  ];
  const R = step({
    symbol: "R",
    label: "resistance of one rod",
    unit: "Ω",
    clause: "rod-resistance",
    formula: "ρ / (2 * pi * L) * (log(8 * L / (d / 1000)) - 1)",
    inputs: { ρ, L, d },
    compute: ({ ρ, L, d }) => (ρ / (2 * Math.PI * L)) * (Math.log((8 * L) / (d / 1000)) - 1),
  });
  if (rods.count.state === "known" && rods.count.value === 1) return R;
  const n = given(rods.count, "n");
  if (n.kind === "unknown") return n;
  return step({
    symbol: "RA",
    label: "resistance of the group of rods",
    unit: "Ω",
    clause: "rod-resistance",
    formula: "R * (1 + λ * ρ / (2 * pi * R * s)) / n",
    inputs: { R, λ: figures(`rodGroupFactor${n.value as 2}`), ρ, s: given(rods.spacingM, "s"), n },
    compute: ({ R, λ, ρ, s, n }) => (R * (1 + (λ * ρ) / (2 * Math.PI * R * s))) / n,
  });
}
