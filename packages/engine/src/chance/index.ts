export * from "./draws.ts";
export * from "./normal-quantile.ts";
export * from "./philox.ts";
export * from "./random-stream.ts";
