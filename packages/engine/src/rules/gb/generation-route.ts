import { missing } from "../../job/index.ts";
import { isKnown, numberOf, total } from "../../worked/index.ts";
import { fedBackOn } from "../fed-back.ts";
import { compare, factsOf, notApplicable, rule, type Subject, shownOf, UNITED_KINGDOM } from "../rule.ts";

const subject: Subject = {
  id: "generation",
  label: "generation and storage",
  path: "supply.operator.answer",
};

/** Generation, storage and vehicles that feed back: notified after, or applied for first. */
export const generationRoute = rule({
  id: "generation-route",
  title: "Generation and storage: notify or apply",
  stage: "decide",
  jurisdictions: UNITED_KINGDOM,
  messages: {
    none: "Nothing here feeds back.",
    notify:
      "{export} on {line} can feed back in all, not above {limit}: connect type-tested equipment, then notify. No allowance is made for not running together.",
    answered:
      "{export} on {line} can feed back in all, above {limit}; the operator has answered that the work may proceed.",
    apply:
      "{export} on {line} can feed back in all, above {limit}. Apply to the operator and wait before connecting.",
    unknown: "Record the rated current of everything that can feed back.",
  },
  judge({ tree, lines, job, figures }) {
    const sums = lines.map((line) => {
      const parts = fedBackOn(tree, line);
      return {
        line,
        sum: total(
          { symbol: "Iexp", label: `what can feed back on ${line}`, unit: "A", clause: "generation-route" },
          parts,
        ),
        count: parts.length,
      };
    });
    if (sums.every(({ count }) => count === 0)) return [notApplicable(subject, "none")];
    const worst =
      sums.find(({ sum }) => !isKnown(sum)) ??
      sums.reduce((most, item) => (numberOf(item.sum) > numberOf(most.sum) ? item : most));
    const limit = figures("generationNotifyA");
    const { answer } = job.supply.operator;
    const isAnswered = answer.state === "known" && answer.value === "may-proceed";
    return [
      compare({
        subject,
        check: { left: worst.sum, relation: "<=", right: limit },
        holds: { message: "notify", action: "notify-after" },
        broken: isAnswered
          ? { message: "answered", verdict: "pass" }
          : { message: "apply", verdict: "cannot-tell", action: "apply-first", missing: [missing(answer)] },
        unknown: "unknown",
        data: { export: shownOf(worst.sum, 1, "up"), limit: shownOf(limit, 0), line: worst.line },
        facts: factsOf(answer),
      }),
    ];
  },
});
