export * from "./adiabatic.ts";
export { type CableRun, ratedAs } from "./cable-run.ts";
export * from "./capacity.ts";
export * from "./conductor.ts";
export * from "./four-wire-flow.ts";
export * from "./loop.ts";
export * from "./short-circuit.ts";
export * from "./tables.ts";
export * from "./voltage-drop.ts";
