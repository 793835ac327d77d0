export * from "./basis.ts";
export * from "./check.ts";
export * from "./citation.ts";
export * from "./evaluate.ts";
export * from "./figure.ts";
export * from "./quantity.ts";
export * from "./step.ts";
export * from "./turning-point.ts";
