export * from "./complex.ts";
export * from "./engine-error.ts";
export * from "./iso-date.ts";
export * from "./line.ts";
export * from "./require-in-range.ts";
export * from "./round.ts";
export * from "./three-phase.ts";
