export * from "./assessment-json.ts";
export * from "./assessment-view.ts";
export * from "./finding-view.ts";
export * from "./format.ts";
export * from "./report/report.ts";
export * from "./supply-drawing/index.ts";
export * from "./words.ts";
export * from "./working-view.ts";
