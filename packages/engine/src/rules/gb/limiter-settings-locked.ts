import { missing } from "../../job/index.ts";
import { cannotTell, factsOf, notApplicable, rule, UNITED_KINGDOM } from "../rule.ts";
import { limiterSubject } from "./limiter-subject.ts";

const subject = limiterSubject("lock");

/** Nobody raises the limit by accident or to charge faster. */
export const limiterSettingsLocked = rule({
  id: "limiter-settings-locked",
  title: "The load manager's settings are locked",
  stage: "prove",
  jurisdictions: UNITED_KINGDOM,
  messages: {
    none: "No load manager is planned.",
    locked: "Locked by {lock}.",
    open: "The settings are open to anyone, and the limit was agreed with the operator. Lock them by password, PIN or seal.",
    openCaution:
      "The settings are open to anyone. Lock them, so that nobody raises the limit to charge faster.",
    unknown: "Try to change the limit as the customer would, and record what stops it.",
  },
  judge({ job }) {
    if (job.limiter === null) return [notApplicable(subject, "none")];
    const { lock, isLimitationScheme } = job.limiter;
    const facts = factsOf(lock, isLimitationScheme);
    if (lock.state !== "known") return [cannotTell(subject, "unknown", [missing(lock)])];
    if (lock.value !== "none")
      return [{ subject, verdict: "pass", message: "locked", data: { lock: lock.value }, facts }];
    if (isLimitationScheme.state !== "known") {
      return [cannotTell(subject, "openCaution", [missing(isLimitationScheme)], { facts })];
    }
    return isLimitationScheme.value
      ? [{ subject, verdict: "fail", message: "open", data: {}, facts }]
      : [{ subject, verdict: "pass", message: "openCaution", data: {}, action: "caution", facts }];
  },
});
