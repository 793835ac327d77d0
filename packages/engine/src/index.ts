/**
 * The engine: pure functions from a job and its knowledge to findings, options and documents.
 *
 * Reads no clock, file, network, storage, locale or environment.
 *
 * @module
 */
export * from "./chance/index.ts";
export * from "./circuits/index.ts";
export * from "./demand/index.ts";
export * from "./earthing/index.ts";
export * from "./fitting/index.ts";
export * from "./job/index.ts";
export * from "./limiter/index.ts";
export * from "./metering/index.ts";
export * from "./portfolio/index.ts";
export * from "./present/index.ts";
export * from "./protection/index.ts";
export * from "./proving/index.ts";
export * from "./quantities/index.ts";
export * from "./rules/index.ts";
export * from "./simulation/index.ts";
export * from "./supply/index.ts";
export * from "./through-time/index.ts";
export * from "./worked/index.ts";
