export * from "./electrode.ts";
export * from "./open-pen.ts";
export * from "./open-pen-electrode.ts";
export * from "./protective-sizes.ts";
