import { missing } from "../../job/index.ts";
import type { Line } from "../../quantities/index.ts";
import { cannotTell, factsOf, type Judgement, rule, type Subject, UNITED_KINGDOM } from "../rule.ts";
import type { Study } from "../study.ts";

type Message = "none" | "unknown" | "proved" | "order" | "pairs";

/** Each place of work was proved dead with a tester proved before and after. */
export const deadProof = rule<Message>({
  id: "dead-proof",
  title: "Dead working was proved",
  stage: "fit",
  jurisdictions: UNITED_KINGDOM,
  messages: {
    none: "No proof of dead working is recorded. Isolate and lock off; prove the tester, test every pair, prove the tester again.",
    unknown: "{where}: record when the tester was proved, the part tested, and the tester proved again.",
    proved: "{where}: tester proved, dead on every pair, tester proved again.",
    order:
      "{where}: the times are not in order. The tester is proved before the test and again after it; repeat the proof.",
    pairs: "{where}: not tested between {pairs}. Repeat the proof on every pair.",
  },
  judge: (study) => {
    const { deadProofs } = study.job.tests;
    if (deadProofs.length > 0) return deadProofs.map((proof) => judgeProof(study, proof));
    const subject: Subject = { id: "tests", label: "dead working", path: "tests.deadProofs" };
    return [
      cannotTell(subject, "none", [{ path: subject.path, label: "a proof of dead working", what: "fact" }]),
    ];
  },
});

function judgeProof({ tree }: Study, proof: Study["job"]["tests"]["deadProofs"][number]): Judgement<Message> {
  const { label } = tree.node(proof.where);
  const subject: Subject = { id: proof.where, label, path: "tests.deadProofs" };
  const { testerProvedAt, testedDeadAt, testerReprovedAt } = proof;
  const times = [testerProvedAt, testedDeadAt, testerReprovedAt];
  const facts = factsOf(...times);
  const data = { where: label };
  const unknown = times.filter((fact) => fact.state !== "known");
  if (unknown.length > 0) return cannotTell(subject, "unknown", unknown.map(missing), { data, facts });
  const [proved, tested, reproved] = times.map((fact) => (fact.state === "known" ? fact.value : ""));
  if (!((proved as string) <= (tested as string) && (tested as string) <= (reproved as string))) {
    return { subject, verdict: "fail", message: "order", data, facts };
  }
  const untested = pairsFor(tree.linesAt(proof.where)).filter((pair) => !proof.pairs.includes(pair as never));
  return untested.length === 0
    ? { subject, verdict: "pass", message: "proved", data, facts }
    : { subject, verdict: "fail", message: "pairs", data: { ...data, pairs: untested.join(", ") }, facts };
}

/** Every pair of conductors: lines to neutral and earth, neutral to earth, and line to line. */
function pairsFor(lines: readonly Line[]): readonly string[] {
  const between = lines.length === 3 ? ["L1-L2", "L2-L3", "L3-L1"] : [];
  return [...lines.map((line) => `${line}-N`), ...lines.map((line) => `${line}-E`), "N-E", ...between];
}
