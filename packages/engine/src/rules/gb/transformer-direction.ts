import { missing } from "../../job/index.ts";
import { cannotTell, factsOf, notApplicable, rule, type Subject, UNITED_KINGDOM } from "../rule.ts";

const none: Subject = { id: "metering", label: "the metering chain", path: "metering" };

/** As far as eyes can tell: the arrow towards the load, and each channel fed from its own line. */
export const transformerDirection = rule({
  id: "transformer-direction",
  title: "The current transformers are the right way round",
  stage: "fit",
  jurisdictions: UNITED_KINGDOM,
  messages: {
    none: "No current transformers are planned.",
    right:
      "{transformer} points towards the load and feeds the channel of its own line. Prove it with a known load: the power must rise.",
    reversed:
      "{transformer} points towards the supply: the meter will read import as export. Turn it round, or exchange its two secondary wires, the primary dead or the secondary shorted first.",
    crossed:
      "{transformer} sits on {conductor} but feeds the channel of {channel}. Move it, or wire it to its own channel.",
    unknown: "Look at the arrow, or the marks P1 and P2, on {transformer}; P1 faces the supply.",
  },
  judge({ job }) {
    const transformers = job.metering?.currentTransformers ?? [];
    if (transformers.length === 0) return [notApplicable(none, "none")];
    return transformers.map((transformer) => {
      const path = `metering.currentTransformers[${transformer.id}].arrow`;
      const subject: Subject = { id: transformer.id, label: transformer.id, path };
      const { conductor, channel, arrow } = transformer;
      const data = { transformer: transformer.id, conductor, channel };
      if (conductor !== "N" && conductor !== channel) {
        return { subject, verdict: "fail", message: "crossed", data } as const;
      }
      if (arrow.state !== "known") return cannotTell(subject, "unknown", [missing(arrow)], { data });
      const facts = factsOf(arrow);
      return arrow.value === "towards-load"
        ? ({ subject, verdict: "pass", message: "right", data, facts } as const)
        : ({ subject, verdict: "fail", message: "reversed", data, facts } as const);
    });
  },
});
