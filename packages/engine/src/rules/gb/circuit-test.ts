import type { Job, Located } from "../../job/index.ts";
import type { Subject } from "../rule.ts";
import type { PointCircuit, Study } from "../study.ts";

export type CircuitTest = Located<Job["tests"]["circuits"][number]>;

/** The test results recorded for the circuit of a charge point. */
export const testOf = ({ job }: Study, { protectedBy }: PointCircuit): CircuitTest | undefined =>
  job.tests.circuits.find((test) => test.way === protectedBy.id);

/** A test result as the subject of a finding, and as something still to be recorded. */
export function testField({ point, protectedBy }: PointCircuit, field: string, label: string) {
  const path = `tests.circuits[${protectedBy.id}].${field}`;
  const subject: Subject = { id: point.id, label: point.label, path };
  return { subject, missing: [{ path, label: `${label}, ${point.label}`, what: "fact" as const }] };
}
