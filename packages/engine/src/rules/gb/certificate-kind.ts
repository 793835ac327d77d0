import { missing } from "../../job/index.ts";
import { cannotTell, factsOf, rule, type Subject, UNITED_KINGDOM } from "../rule.ts";

const subject: Subject = { id: "work", label: "the work", path: "work.certificate" };

/** A new circuit gets an installation certificate. */
export const certificateKind = rule({
  id: "certificate-kind",
  title: "The right certificate is issued",
  stage: "hand-over",
  jurisdictions: UNITED_KINGDOM,
  messages: {
    right: "An installation certificate, with schedules of inspection and test results.",
    minorRight: "A minor works certificate; no circuit is added.",
    minorWrong: "A minor works certificate does not cover a new circuit. Issue an installation certificate.",
    unknown: "Decide which certificate will be issued, and record whether a circuit is added.",
  },
  judge({ job }) {
    const { addsCircuit, certificate } = job.work;
    const facts = factsOf(addsCircuit, certificate);
    const unknown = [addsCircuit, certificate].filter((fact) => fact.state !== "known");
    if (certificate.state !== "known" || addsCircuit.state !== "known") {
      return [cannotTell(subject, "unknown", unknown.map(missing), { facts })];
    }
    if (certificate.value === "installation")
      return [{ subject, verdict: "pass", message: "right", data: {}, facts }];
    return addsCircuit.value
      ? [{ subject, verdict: "fail", message: "minorWrong", data: {}, facts }]
      : [{ subject, verdict: "pass", message: "minorRight", data: {}, facts }];
  },
});
