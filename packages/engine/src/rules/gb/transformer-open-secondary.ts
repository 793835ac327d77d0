import { choice, missing } from "../../job/index.ts";
import { mayHurtOpen, type Transformer } from "../../metering/index.ts";
import { cannotTell, factsOf, type Judgement, rule, UNITED_KINGDOM } from "../rule.ts";
import { noTransformers, transformerSubject } from "./transformer-subject.ts";

type Message = "none" | "safe" | "atMeter" | "shorted" | "open" | "unknown" | "outputUnknown";

/** No secondary that may reach a dangerous voltage is open while its primary can carry current. */
export const transformerOpenSecondary = rule<Message>({
  id: "transformer-open-secondary",
  title: "No transformer's secondary is left open",
  stage: "fit",
  jurisdictions: UNITED_KINGDOM,
  messages: {
    none: "No current transformers are planned.",
    safe: "{transformer} gives volts through a resistor of its own: an open secondary does no harm.",
    atMeter:
      "The secondary of {transformer} ({output}) is at the meter. Short it before it or the meter is ever disturbed.",
    shorted:
      "The secondary of {transformer} ({output}) is shorted. Leave the link in until both wires are at the meter.",
    open: "The secondary of {transformer} ({output}) is open: with current in the primary its voltage can kill. Keep away, make the primary dead, then connect both wires to the meter or short them.",
    unknown:
      "Before current flows through {transformer} ({output}): connect both secondary wires to the meter or short them, tug each, and record where the secondary ends.",
    outputUnknown:
      "Read the output of {transformer} from its plate. Until then treat it as a current output: connect or short its secondary before current flows.",
  },
  judge: ({ job }) => {
    const transformers = job.metering?.currentTransformers ?? [];
    return transformers.length === 0 ? [noTransformers("none")] : transformers.map(judgeOne);
  },
});

function judgeOne(transformer: Transformer): Judgement<Message> {
  const { output, secondaryEnd } = transformer;
  const subject = transformerSubject(transformer, "secondaryEnd");
  const shown = output.state === "known" ? output.value.replace("-", " ") : "output not known";
  const data = { transformer: transformer.id, output: shown };
  const facts = [output, secondaryEnd].flatMap((fact) => (fact.state === "known" ? [choice(fact)] : []));
  if (!mayHurtOpen(transformer))
    return { subject, verdict: "pass", message: "safe", data, facts: factsOf(output) };
  if (secondaryEnd.state === "known" && secondaryEnd.value === "open")
    return { subject, verdict: "fail", message: "open", data, facts, action: "stop" };
  if (output.state !== "known") return cannotTell(subject, "outputUnknown", [missing(output)], { data });
  if (secondaryEnd.state !== "known")
    return cannotTell(subject, "unknown", [missing(secondaryEnd)], { data });
  return {
    subject,
    verdict: "pass",
    message: secondaryEnd.value === "meter" ? "atMeter" : "shorted",
    data,
    facts,
  };
}
