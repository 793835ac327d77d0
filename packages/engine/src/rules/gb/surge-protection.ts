import { missing } from "../../job/index.ts";
import { cannotTell, factsOf, rule, type Subject, UNITED_KINGDOM } from "../rule.ts";

const subject: Subject = { id: "surge", label: "surge protection", path: "surge.isFitted" };

/** Surge protection is fitted, or the owner declined it where that is allowed. */
export const surgeProtection = rule({
  id: "surge-protection",
  title: "Surge protection is fitted or declined",
  stage: "decide",
  jurisdictions: UNITED_KINGDOM,
  messages: {
    fitted: "Fitted. Keep its connecting leads under half a metre in all, and record its indicator.",
    declined:
      "Not fitted; the owner declines it in writing, and nothing here makes it compulsory. Keep the signature.",
    needed: "Not fitted, and overvoltage here could injure, stop a safety service, or cost dearly. Fit it.",
    notDeclined: "Not fitted and not declined. Fit it, or have the owner decline it in writing.",
    unknown:
      "Look whether surge protection is fitted; if not, ask what overvoltage could do and whether the owner declines it.",
  },
  judge({ job }) {
    const { isFitted, hasSeriousConsequence, ownerDeclines } = job.surge;
    const facts = factsOf(isFitted, hasSeriousConsequence, ownerDeclines);
    if (isFitted.state !== "known") return [cannotTell(subject, "unknown", [missing(isFitted)], { facts })];
    if (isFitted.value) return [{ subject, verdict: "pass", message: "fitted", data: {}, facts }];
    if (hasSeriousConsequence.state === "known" && hasSeriousConsequence.value) {
      return [{ subject, verdict: "fail", message: "needed", data: {}, facts }];
    }
    if (ownerDeclines.state === "known" && !ownerDeclines.value) {
      return [{ subject, verdict: "fail", message: "notDeclined", data: {}, facts }];
    }
    const unknown = [hasSeriousConsequence, ownerDeclines].filter((fact) => fact.state !== "known");
    if (unknown.length > 0) return [cannotTell(subject, "unknown", unknown.map(missing), { facts })];
    return [{ subject, verdict: "pass", message: "declined", data: {}, facts }];
  },
});
