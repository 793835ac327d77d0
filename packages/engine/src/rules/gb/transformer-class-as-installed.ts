import { missing } from "../../job/index.ts";
import { isCurrentOutput, type Transformer } from "../../metering/index.ts";
import { cannotTell, factsOf, type Judgement, notApplicable, rule, UNITED_KINGDOM } from "../rule.ts";
import { noTransformers, transformerSubject } from "./transformer-subject.ts";

type Message = "none" | "noClass" | "ownByKind" | "own" | "asTested" | "exchanged" | "unknown";

/** A class given to a set tested together holds only while the set is wired as it was tested. */
export const transformerClassAsInstalled = rule<Message>({
  id: "transformer-class-as-installed",
  title: "The accuracy class is that of what is installed",
  stage: "fit",
  jurisdictions: UNITED_KINGDOM,
  messages: {
    none: "No current transformers are planned.",
    noClass: "No accuracy class is recorded for {transformer}, so none can be lost.",
    ownByKind:
      "A class of a transformer of 1 A or 5 A output is its own, whatever meter it is wired to, while its burden is in range.",
    own: "Class {class} belongs to {transformer} by itself, whatever meter and channel it is wired to.",
    asTested:
      "Class {class} of {transformer} is that of its set as tested. Keep meter, transformer, lead and channel together; exchange none of them on site.",
    exchanged:
      "Class {class} of {transformer} no longer holds: part of its set was exchanged since it was tested. Put each back on its own channel, or have the set tested again. Until then no class is taken for it, and the margin must come from a comparison with a clamp meter.",
    unknown:
      "Read plate and test sheet of {transformer}: whether class {class} is its own or that of a set tested together, and whether any of it was exchanged since.",
  },
  judge: ({ job }) => {
    const transformers = job.metering?.currentTransformers ?? [];
    return transformers.length === 0 ? [noTransformers("none")] : transformers.map(judgeOne);
  },
});

const OWNED = { transformer: "own", "set-as-tested": "asTested", "set-exchanged": "exchanged" } as const;

function judgeOne(transformer: Transformer): Judgement<Message> {
  const { accuracyClass, classOwner } = transformer;
  const subject = transformerSubject(transformer, "classOwner");
  const data = {
    transformer: transformer.id,
    class: accuracyClass.state === "known" ? accuracyClass.value : "–",
  };
  if (accuracyClass.state !== "known") return { ...notApplicable(subject, "noClass"), data };
  if (classOwner.state !== "known")
    return isCurrentOutput(transformer)
      ? { ...notApplicable(subject, "ownByKind"), data }
      : cannotTell(subject, "unknown", [missing(classOwner)], { data });
  const message = OWNED[classOwner.value];
  const facts = factsOf(classOwner);
  return message === "exchanged"
    ? { subject, verdict: "fail", message, data, facts, action: "caution" }
    : { subject, verdict: "pass", message, data, facts };
}
