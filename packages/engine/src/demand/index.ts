export * from "./allowances.ts";
export * from "./existing-demand.ts";
export * from "./hidden-peak.ts";
export * from "./interval-series.ts";
export * from "./maximum-demand.ts";
export * from "./synthetic/index.ts";
