import { missing } from "../../job/index.ts";
import { cannotTell, factsOf, rule, type Subject, UNITED_KINGDOM } from "../rule.ts";

const subject: Subject = { id: "work", label: "the work", path: "work.wiringRules" };

/** The work is designed and certified to an edition of the wiring rules that may be used on its dates. */
export const wiringRulesEdition = rule({
  id: "wiring-rules-edition",
  title: "The edition of the wiring rules is in force",
  stage: "hand-over",
  jurisdictions: UNITED_KINGDOM,
  messages: {
    inForce:
      "{edition} may be used on {date}. Clause numbers shown here are those of the edition each was read in.",
    notYet: "{edition} is not in force on {date}; it may be used from {from}. Choose the edition in force.",
    withdrawn:
      "{edition} may not be cited on {date}: it was last usable on {until}. Certify to the edition in force.",
    designedBefore:
      "Designed while {edition} was usable, signed on {date} after it was withdrawn on {until}. Usual practice goes by the design date; say so on the certificate and check against the edition in force.",
    laterThanDesign:
      "Designed on {designed}, before {edition} could be used from {from}. Everything here is checked against {edition}; see that the design was brought up to it, and give the day on which it was.",
    unknown: "Decide which edition the whole project is designed and certified to.",
  },
  judge({ job, knowledge, inputs }) {
    const { wiringRules, designedOn, signedOn } = job.work;
    if (wiringRules.state !== "known") return [cannotTell(subject, "unknown", [missing(wiringRules)])];
    const facts = factsOf(wiringRules, designedOn, signedOn);
    const edition = knowledge.editions.find((item) => item.id === wiringRules.value);
    if (edition === undefined) return [cannotTell(subject, "unknown", [missing(wiringRules)], { facts })];
    const date =
      signedOn.state === "known"
        ? signedOn.value
        : designedOn.state === "known"
          ? designedOn.value
          : inputs.onIso;
    const designed = designedOn.state === "known" ? designedOn.value : date;
    const data = { edition: edition.title, date, designed, from: edition.from, until: edition.until ?? "–" };
    const isWithdrawn = edition.until !== null && date > edition.until;
    if (isWithdrawn) {
      const wasUsable =
        designedOn.state === "known" &&
        designedOn.value >= edition.from &&
        designedOn.value <= (edition.until ?? "");
      return signedOn.state === "known" && wasUsable
        ? [{ subject, verdict: "pass", message: "designedBefore", data, facts, action: "caution" }]
        : [{ subject, verdict: "fail", message: "withdrawn", data, facts }];
    }
    if (date < edition.from) return [{ subject, verdict: "fail", message: "notYet", data, facts }];
    return designed < edition.from
      ? [{ subject, verdict: "pass", message: "laterThanDesign", data, facts, action: "caution" }]
      : [{ subject, verdict: "pass", message: "inForce", data, facts }];
  },
});
