import { type BlockAsked, type Portfolio, type PortfolioBlock, portfolioBlock } from "@underfuse/engine";
import { GREAT_BRITAIN } from "@underfuse/knowledge";
import type { Work } from "./worker-pool.ts";

export interface PortfolioShared {
  readonly portfolio: Portfolio;
  readonly seed: number;
}
export type PortfolioPiece = Omit<BlockAsked, "seed">;

export const PORTFOLIO_WORK: Work<PortfolioShared, PortfolioPiece, PortfolioBlock> = {
  name: "portfolio",
  prepare:
    ({ portfolio, seed }) =>
    (piece) =>
      portfolioBlock(portfolio, GREAT_BRITAIN.demand.appliances, { seed, ...piece }),
};

/** Home-days in a piece: enough to be worth sending, few enough to show progress and to stop soon. */
const LEAST_HOME_DAYS = 500;
const MOST_HOME_DAYS = 10_000;
const PIECES = 100;

/** Cuts the work so that all drawn streets advance together: whatever is done when it is stopped is alike in all. */
export function portfolioPieces({ homes, days, draws }: Portfolio): readonly PortfolioPiece[] {
  const wanted = (homes * days.count * draws) / PIECES;
  const homeDays = Math.min(MOST_HOME_DAYS, Math.max(LEAST_HOME_DAYS, wanted));
  const step = Math.min(days.count, Math.max(1, Math.round(homeDays / homes)));
  const pieces: PortfolioPiece[] = [];
  for (let fromDay = 0; fromDay < days.count; fromDay += step) {
    const toDay = Math.min(days.count, fromDay + step);
    for (let draw = 0; draw < draws; draw++) pieces.push({ draw, fromDay, toDay });
  }
  return pieces;
}
