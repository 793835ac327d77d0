export * from "./appliances.ts";
export * from "./day-curve.ts";
export * from "./household.ts";
export * from "./season.ts";
export * from "./synthetic-day.ts";
