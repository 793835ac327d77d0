export * from "./order-of-work.ts";
export * from "./settings-sheet.ts";
export * from "./terminal-schedule.ts";
export * from "./work-step.ts";
