export * from "./site-plan.ts";
export * from "./site-run.ts";
export * from "./thermal-body.ts";
export * from "./timed-fault.ts";
