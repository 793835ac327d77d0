export * from "./drawn-supply.ts";
export * from "./supply-drawing.ts";
export * from "./supply-outline.ts";
