import type { EditionDates } from "@underfuse/engine";

/** Editions of the wiring rules, oldest first, with the days between which each may be cited. */
export const EDITIONS: readonly EditionDates[] = [
  {
    id: "bs7671-2018-a1-2020",
    title: "BS 7671:2018+A1:2020",
    from: "2020-02-01",
    until: "2022-09-27",
    citation: {
      source: "bs7671",
      at: "amendment 1",
      standing: "recalled",
      remark: "The last day of overlap is recalled.",
    },
  },
  {
    id: "bs7671-2018-a2-2022",
    title: "BS 7671:2018+A2:2022 (with A3:2024)",
    from: "2022-03-28",
    until: "2026-10-14",
    citation: { source: "bs7671", at: "amendment 2", standing: "seen", seenAt: "reprint-a2" },
  },
  {
    id: "bs7671-2018-a4-2026",
    title: "BS 7671:2018+A4:2026",
    from: "2026-04-15",
    until: null,
    citation: {
      source: "bs7671",
      at: "amendment 4",
      standing: "seen",
      seenAt: "reprint-a4",
      remark: "Pages read both ways for 15 October 2026 itself; it is taken as the first day of A4 alone.",
    },
  },
];
