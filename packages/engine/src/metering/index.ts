export * from "./burden.ts";
export * from "./chain-error.ts";
export * from "./error-budget.ts";
export * from "./registers/index.ts";
export * from "./tables.ts";
export * from "./transformer-error.ts";
