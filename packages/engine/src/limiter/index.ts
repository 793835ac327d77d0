export * from "./control.ts";
export * from "./excursion-states.ts";
export * from "./latency-bound.ts";
export * from "./limit.ts";
export * from "./manager.ts";
export * from "./pilot.ts";
export * from "./sharing.ts";
export * from "./stability.ts";
