export * from "./claim.ts";
export type { Excursion } from "./excursion.ts";
export type { FallbackTrial } from "./fallback-trial.ts";
export type { FuseApproach } from "./fuse-approach.ts";
export * from "./judge-trace.ts";
export type { Recovery } from "./recovery.ts";
export type { Sampling } from "./sampling.ts";
export * from "./trace.ts";
export type { TraceBounds } from "./trace-bounds.ts";
