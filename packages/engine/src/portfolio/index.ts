export * from "./outcome.ts";
export { type PortfolioResult, parsePortfolio } from "./parse-portfolio.ts";
export { PORTFOLIO_FORMAT, type Portfolio, portfolioJsonSchema } from "./portfolio.ts";
export * from "./portfolio-block.ts";
export * from "./street-day.ts";
