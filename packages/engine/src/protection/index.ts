export * from "./clearing-time.ts";
export * from "./discrimination.ts";
export * from "./max-loop-impedance.ts";
export * from "./tables.ts";
export * from "./time-current.ts";
