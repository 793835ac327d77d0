import type {
  Citation,
  FuseGates,
  FuseZsRow,
  OvercurrentStandard,
  ProtectionTables,
} from "@underfuse/engine";

const systemC: Citation = {
  source: "bs7671",
  at: "Table 41.3 and 41.4, BS 88-3 system C",
  standing: "second-hand",
  remark: "From a look-up page not named here; the 32 A value agrees with a trade journal of spring 2015.",
};
const gg2011: Citation = {
  source: "bs7671",
  at: "Table 41.2, BS 88-2, 17th edition of 2011",
  standing: "second-hand",
  remark: "Printed without Cmin, which is applied here.",
};
const bs1361: Citation = {
  source: "bs7671",
  at: "Table 41.4, BS 1361, 17th edition",
  standing: "recalled",
  remark: "Printed without Cmin, which is applied here.",
};

const rows = (
  standard: OvercurrentStandard,
  timeS: 0.4 | 5,
  includesMinVoltageFactor: boolean,
  citation: Citation,
  values: readonly (readonly [ratingA: number, zsOhm: number])[],
): readonly FuseZsRow[] =>
  values.map(([ratingA, zsOhm]) => ({ standard, ratingA, timeS, zsOhm, includesMinVoltageFactor, citation }));

const gates = (
  ratingA: number,
  minAt10s: number,
  maxAt5s: number,
  minAt100ms: number,
  maxAt100ms: number,
  minPreArcingA2s: number,
  maxPreArcingA2s: number,
): FuseGates => ({ ratingA, minAt10s, maxAt5s, minAt100ms, maxAt100ms, minPreArcingA2s, maxPreArcingA2s });

export const PROTECTION: ProtectionTables = {
  fuseZs: [
    ...rows("bs-88-3", 0.4, true, systemC, [
      [5, 9.93],
      [16, 2.3],
      [20, 1.93],
      [32, 0.91],
      [45, 0.57],
      [63, 0.36],
    ]),
    ...rows("bs-88-3", 5, true, systemC, [
      [5, 14.6],
      [16, 3.9],
      [20, 3.2],
      [32, 1.6],
      [45, 1.0],
      [63, 0.68],
      [80, 0.51],
      [100, 0.38],
    ]),
    ...rows("bs-88-2", 0.4, false, gg2011, [
      [6, 8.21],
      [10, 4.89],
      [16, 2.56],
      [20, 1.77],
      [25, 1.35],
      [32, 1.04],
    ]),
    ...rows("bs-1361-ii", 5, false, bs1361, [
      [45, 0.96],
      [60, 0.7],
      [80, 0.5],
      [100, 0.36],
    ]),
    ...rows("bs-1361-i", 5, false, bs1361, [[45, 0.96]]),
  ],
  fuseGates: {
    citation: {
      source: "iec60269-1",
      at: "gates for gG fuse-links; pre-arcing energies at 10 ms",
      standing: "recalled",
      remark:
        "The 5 s gates agree within 1 % with currents worked back from printed loop impedances. Between gates the edge is this project's estimate.",
    },
    standards: ["bs-88-2", "bs-88-3"],
    rows: [
      gates(16, 33, 65, 85, 150, 300, 1000),
      gates(20, 42, 85, 110, 200, 500, 1800),
      gates(25, 52, 110, 150, 260, 1000, 3000),
      gates(32, 75, 150, 200, 350, 1800, 5000),
      gates(40, 95, 190, 260, 450, 3000, 9000),
      gates(50, 125, 250, 350, 610, 5000, 16_000),
      gates(63, 160, 320, 450, 820, 9000, 27_000),
      gates(80, 215, 425, 610, 1100, 16_000, 46_000),
      gates(100, 290, 580, 820, 1450, 27_000, 86_000),
      gates(125, 355, 715, 1100, 1910, 46_000, 140_000),
    ],
  },
  letThrough: {
    citation: {
      source: "bs-en-60898",
      at: "Annex ZA, energy limiting class 3",
      standing: "recalled",
      remark: "A forum on standards states a consequence that agrees for type B at 6 kA.",
    },
    rows: [
      { curve: "B", breakingCapacityKa: 6, upToA: 16, energyA2s: 35_000 },
      { curve: "B", breakingCapacityKa: 6, upToA: 32, energyA2s: 45_000 },
      { curve: "B", breakingCapacityKa: 10, upToA: 16, energyA2s: 70_000 },
      { curve: "B", breakingCapacityKa: 10, upToA: 32, energyA2s: 90_000 },
      { curve: "C", breakingCapacityKa: 6, upToA: 16, energyA2s: 42_000 },
      { curve: "C", breakingCapacityKa: 6, upToA: 32, energyA2s: 55_000 },
    ],
  },
};
