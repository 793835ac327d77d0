import { given, missing } from "../../job/index.ts";
import { decide } from "../../worked/index.ts";
import { cannotTell, factsOf, GREAT_BRITAIN, type Judgement, notApplicable, rule, shownOf } from "../rule.ts";
import type { PointCircuit, Study } from "../study.ts";
import { nodeSubject } from "../subjects.ts";

type Message =
  | "public"
  | "soldBefore"
  | "unknown"
  | "meets"
  | "noStatement"
  | "noDefaultHours"
  | "delayTooLong"
  | "delayTooShort"
  | "needsNetwork";

/** First day on which a private charge point sold falls under the regulations. */
const FROM = "2022-06-30";

/** A private charge point does what the smart charge point regulations ask of its seller. */
export const smartChargePoint = rule<Message>({
  id: "smart-charge-point",
  title: "A private charge point is a smart one",
  stage: "prove",
  jurisdictions: GREAT_BRITAIN,
  messages: {
    public: "{point} is public; the regulations cover private charge points.",
    soldBefore: "{point} was sold before {from}.",
    unknown: "{point}: record what is missing; see at first use.",
    meets:
      "{point}: statement on file, default hours offered, random delay {delay} of at most {most}, charges without the network. A protective reduction must not wait for the delay; only rising may.",
    noStatement: "{point}: no statement of compliance on file. Ask the seller.",
    noDefaultHours: "{point} does not offer default charging hours at first use. Ask the seller.",
    delayTooLong:
      "{point}: random delay set to {delay}; the default may be at most {most}. Correct the setting.",
    delayTooShort:
      "{point}: its random delay can only go to {capability}; it must be able to reach {wanted}. Ask the seller.",
    needsNetwork: "{point} does not charge with the network away. Ask the seller.",
  },
  judge: (study) => study.circuits.map((circuit) => judgePoint(study, circuit)),
});

function judgePoint({ figures }: Study, { point }: PointCircuit): Judgement<Message> {
  const subject = nodeSubject(point, "smart.hasStatement");
  const { isPrivate, soldOn, smart } = point;
  const facts = factsOf(
    isPrivate,
    soldOn,
    smart.hasStatement,
    smart.offersDefaultHours,
    smart.chargesWithoutNetwork,
  );
  const delay = given(smart.randomDelayDefaultS, "td");
  const capability = given(smart.randomDelayCapabilityS, "tc");
  const [most, wanted] = [figures("randomDelayDefaultS"), figures("randomDelayCapabilityS")];
  const data = {
    point: point.label,
    from: FROM,
    delay: shownOf(delay, 0, "up"),
    most: shownOf(most, 0),
    capability: shownOf(capability, 0, "down"),
    wanted: shownOf(wanted, 0),
  };
  if (isPrivate.state === "known" && !isPrivate.value)
    return { ...notApplicable(subject, "public", facts), data };
  if (soldOn.state === "known" && soldOn.value < FROM)
    return { ...notApplicable(subject, "soldBefore", facts), data };
  const fail = (message: Message): Judgement<Message> => ({ subject, verdict: "fail", message, data, facts });
  const delayCheck = { left: delay, relation: "<=", right: most } as const;
  const capabilityCheck = { left: capability, relation: ">=", right: wanted } as const;
  if (smart.hasStatement.state === "known" && !smart.hasStatement.value) return fail("noStatement");
  if (smart.offersDefaultHours.state === "known" && !smart.offersDefaultHours.value)
    return fail("noDefaultHours");
  if (smart.chargesWithoutNetwork.state === "known" && !smart.chargesWithoutNetwork.value)
    return fail("needsNetwork");
  if (decide(delayCheck).state === "broken") return { ...fail("delayTooLong"), check: delayCheck };
  if (decide(capabilityCheck).state === "broken") return { ...fail("delayTooShort"), check: capabilityCheck };
  const unknown = [
    isPrivate,
    soldOn,
    smart.hasStatement,
    smart.offersDefaultHours,
    smart.chargesWithoutNetwork,
    smart.randomDelayDefaultS,
    smart.randomDelayCapabilityS,
  ].filter((fact) => fact.state !== "known");
  if (unknown.length > 0) return cannotTell(subject, "unknown", unknown.map(missing), { data, facts });
  return {
    subject,
    verdict: "pass",
    message: "meets",
    data,
    facts,
    check: delayCheck,
    turnsOn: smart.randomDelayDefaultS,
  };
}
