import type { EarthingTables } from "@underfuse/engine";

export const EARTHING: EarthingTables = {
  pmeBonding: {
    citation: {
      source: "bs7671",
      at: "Table 54.8",
      standing: "seen",
      seenAt: "reprint-bonding",
      remark: "First row read; the points 35, 50 and 70 mm² read elsewhere; the largest rows recalled.",
    },
    rows: [
      [35, 10],
      [50, 16],
      [95, 25],
      [150, 35],
      [400, 50],
    ],
  },
};
