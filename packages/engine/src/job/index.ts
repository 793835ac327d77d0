export { blankJob, blankManagedJob } from "./blank.ts";
export * from "./chosen-row.ts";
export * from "./fact.ts";
export * from "./fact-guide-at.ts";
export * from "./given.ts";
export * from "./json-schema.ts";
export { MAX_CHARACTERS, parseJsonText } from "./json-text.ts";
export * from "./locate.ts";
export * from "./parse-job.ts";
export type { Problem } from "./problem.ts";
export { problemOfFormat } from "./problem-of-format.ts";
export type { Construction, Grouping, Insulation, Metal, Method } from "./schema/cable.ts";
export type { Curve, OvercurrentDevice, OvercurrentStandard, ResidualDevice } from "./schema/devices.ts";
export {
  DOCUMENTS,
  FORMAT,
  FORMAT_VERSION,
  type Job,
  type JobCable,
  type JobNode,
  jobSchema,
} from "./schema/job.ts";
export { FAILURES } from "./schema/limiter.ts";
export { schemaProblems } from "./schema-problems.ts";
export * from "./serialise-job.ts";
