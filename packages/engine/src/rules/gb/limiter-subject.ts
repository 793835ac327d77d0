import type { Subject } from "../rule.ts";

/** A setting or proof of the load manager as the subject of a finding. */
export const limiterSubject = (field: string): Subject => ({
  id: "limiter",
  label: "the load manager",
  path: `limiter.${field}`,
});
