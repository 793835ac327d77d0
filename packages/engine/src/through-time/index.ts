export * from "./building-source.ts";
export * from "./drawn-building.ts";
export * from "./hidden-demand.ts";
export * from "./option-nights.ts";
export * from "./recorded-building.ts";
export * from "./simulated-site.ts";
export * from "./site-plan-of.ts";
export * from "./swept-site.ts";
