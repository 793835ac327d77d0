import { leastCurrentInClass } from "../../metering/index.ts";
import { compare, rule, shownOf, UNITED_KINGDOM } from "../rule.ts";
import { noTransformers, transformerSubject } from "./transformer-subject.ts";

/** The least a car is offered lies where the transformer's class still promises something. */
export const transformerLowEnd = rule({
  id: "transformer-low-end",
  title: "The current transformers see a car that charges slowly",
  stage: "size",
  jurisdictions: UNITED_KINGDOM,
  messages: {
    none: "No current transformers are planned.",
    sees: "{transformer}: its class holds from {least}; a car takes {offer} at the least.",
    blind:
      "{transformer}: its class promises nothing below {least}, and a car takes {offer} at the least. Near the limit the other loads carry it above; at idle take no reading for exact.",
    unknown: "Read class and rated current on {transformer}.",
  },
  judge: ({ job, figures, knowledge }) => {
    const transformers = job.metering?.currentTransformers ?? [];
    if (transformers.length === 0) return [noTransformers("none")];
    const offer = figures("minOffer");
    return transformers.map((transformer) => {
      const least = leastCurrentInClass(transformer, knowledge.metering);
      const judgement = compare({
        subject: transformerSubject(transformer, "accuracyClass"),
        check: { left: least, relation: "<=", right: offer },
        holds: "sees",
        broken: { message: "blind", action: "caution" },
        unknown: "unknown",
        data: { transformer: transformer.id, least: shownOf(least, 1, "up"), offer: shownOf(offer, 0) },
        turnsOn: transformer.ratedPrimaryA,
      });
      // A caution, never a failure: the limit is judged at large currents, where the class holds.
      return judgement.verdict === "fail" ? { ...judgement, verdict: "pass" as const } : judgement;
    });
  },
});
