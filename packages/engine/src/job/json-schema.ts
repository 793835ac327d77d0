import * as z from "zod";
import { jobSchema } from "./schema/job.ts";

/** The job format as JSON Schema (draft 2020-12), for editors and other programs. */
export const jobJsonSchema = (): object =>
  z.toJSONSchema(jobSchema, { target: "draft-2020-12", unrepresentable: "any", io: "input" });
