/**
 * What the engine knows of Great Britain: sources, dated figures, tables and clauses. Data only.
 *
 * Every figure says how far it has been checked against its printed source. Nothing here computes.
 *
 * @module
 */
import type { Knowledge } from "@underfuse/engine";
import { CLAUSES } from "./clauses.ts";
import { EDITIONS } from "./editions.ts";
import { FAULTS } from "./faults.ts";
import { FIGURES } from "./figures.ts";
import { SOURCES } from "./sources.ts";
import { CIRCUITS } from "./tables/circuits.ts";
import { DEMAND } from "./tables/demand.ts";
import { EARTHING } from "./tables/earthing.ts";
import { METERING } from "./tables/metering.ts";
import { PROTECTION } from "./tables/protection.ts";

export { annexDCoefficients } from "./tables/annex-d.ts";
export { iecCapacity } from "./tables/iec-capacity.ts";

export const GREAT_BRITAIN: Knowledge = {
  sources: SOURCES,
  figures: FIGURES,
  clauses: CLAUSES,
  editions: EDITIONS,
  circuits: CIRCUITS,
  demand: DEMAND,
  earthing: EARTHING,
  metering: METERING,
  protection: PROTECTION,
  faults: FAULTS,
};
