import type { Transformer } from "../../metering/index.ts";
import { notApplicable, type Subject } from "../rule.ts";

/** What a finding about one current transformer is about. */
export const transformerSubject = ({ id }: Transformer, field: string): Subject => ({
  id,
  label: id,
  path: `metering.currentTransformers[${id}].${field}`,
});

export const noTransformers = <M extends string>(message: M) =>
  notApplicable({ id: "metering", label: "the metering chain", path: "metering" }, message);
