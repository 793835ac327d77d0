export * from "./open-job.ts";
export * from "./transformer-view.ts";
export * from "./tree.ts";
