import { GREAT_BRITAIN } from "@underfuse/knowledge";
import type { FigureId } from "../rules/index.ts";
import { type Figures, figureOn } from "../worked/index.ts";

/** Real figures on a day of the fourth amendment, for tests of formulas. */
export const figures: Figures<FigureId> = (name) => figureOn(GREAT_BRITAIN.figures[name], "2026-11-25");
export const { circuits, demand, earthing, protection } = GREAT_BRITAIN;
