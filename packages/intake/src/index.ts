/**
 * Recordings of demand, from the files that meters and loggers write, as series in UTC with their quality.
 *
 * Runs in a browser and in Node alike: reads no file, clock or network itself.
 *
 * @module
 */
export * from "./clean-form.ts";
export * from "./import-result.ts";
export * from "./importer.ts";
export * from "./series/local-days.ts";
export * from "./series/quality.ts";
export * from "./series/recorded-series.ts";
export * from "./statements.ts";
export { eachRow } from "./text/row-splitter.ts";
export { secondOfDay } from "./time/time-of-day.ts";
export { dayReader } from "./time/written-day.ts";
