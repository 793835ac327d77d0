import { prospectiveAt } from "../../circuits/index.ts";
import { given, missing } from "../../job/index.ts";
import { decide, largest, missingFigure, type Quantity } from "../../worked/index.ts";
import { compare, factsOf, type Judgement, type Outcome, rule, shownOf, UNITED_KINGDOM } from "../rule.ts";
import { hasOvercurrent, type PointCircuit, type Study } from "../study.ts";
import { nodeSubject } from "../subjects.ts";

type Message = "breaks" | "conditional" | "undeclared" | "refer" | "tooLow" | "unknown";

/** The greatest the operator may declare for a dwelling's consumer unit to count as backed by the cut-out. [kA] */
const CONDITIONAL_KA = 16;
const CONDITIONAL_FUSE_A = 100;

/** Each device on the way to a charge point can break the greatest fault current where it stands. */
export const breakingCapacity = rule<Message>({
  id: "breaking-capacity",
  title: "Devices can break the prospective fault current",
  stage: "size",
  jurisdictions: UNITED_KINGDOM,
  messages: {
    breaks: "{device}: {fault} prospective, breaking capacity {capacity}.",
    conditional:
      "{device}: {fault} prospective is above its own {capacity}; accepted because the consumer unit is backed by the cut-out fuse in a dwelling. Keep to the maker's devices in that unit.",
    undeclared:
      "{device}: {fault} prospective is above its own {capacity}. Ask the operator what fault current is declared: up to 16 kA the cut-out fuse backs a consumer unit in a dwelling.",
    refer:
      "{device}: {fault} prospective, own capacity {capacity}, and the operator declares more than 16 kA. Ask the assembly's maker for its rating behind this cut-out, and let a designer settle it.",
    tooLow:
      "{device}: {fault} prospective is above its breaking capacity of {capacity}. Fit a device or assembly for it.",
    unknown: "{device}: record the prospective fault current and the breaking capacity on the device.",
  },
  judge: (study) => {
    const seen = new Set<string>();
    return study.circuits.flatMap((circuit) =>
      circuit.nodes
        .filter((node) => node.kind !== "cut-out" && hasOvercurrent(node) && !seen.has(node.id))
        .map((node) => {
          seen.add(node.id);
          return judgeDevice(study, circuit, node.id);
        }),
    );
  },
});

function judgeDevice(study: Study, circuit: PointCircuit, id: string): Judgement<Message> {
  const { job, tree, knowledge, figures, u0 } = study;
  const node = tree.node(id);
  if (!hasOvercurrent(node)) throw new TypeError(`${id} has no overcurrent device`);
  const subject = nodeSubject(node, "overcurrent.breakingCapacityKa");
  const origin = originFaultCurrent(study);
  const path = circuit.path.slice(0, circuit.path.findIndex((cable) => cable.to === id) + 1);
  const fault = prospectiveAt(origin, u0, path, knowledge.circuits, figures);
  const capacity = given(node.overcurrent.breakingCapacityKa, "Icn");
  const check = { left: fault, relation: "<=", right: capacity } as const;
  const data = { device: node.label, fault: shownOf(fault, 2, "up"), capacity: shownOf(capacity, 1, "down") };
  const facts = factsOf(job.site.premises);
  const base = {
    subject,
    check,
    data,
    facts,
    unknown: "unknown",
    turnsOn: job.supply.measuredFaultCurrentKa,
  } as const;
  if (decide(check).state !== "broken") return compare({ ...base, holds: "breaks", broken: "tooLow" });
  const board = tree.nodesTo(id).findLast((item) => item.kind === "board");
  const declared = job.supply.declaredFaultCurrentKa;
  const fuse = tree.cutOut.overcurrent.ratingA;
  const isBacked =
    job.site.premises.state === "known" &&
    job.site.premises.value === "dwelling" &&
    job.supply.phases === 1 &&
    board?.kind === "board" &&
    board.form.state === "known" &&
    board.form.value === "consumer-unit" &&
    fuse.state === "known" &&
    fuse.value <= CONDITIONAL_FUSE_A;
  if (!isBacked) return compare({ ...base, holds: "breaks", broken: "tooLow" });
  return compare({
    ...base,
    holds: "breaks",
    broken: backedBy(declared, board.label),
    facts: [...facts, ...factsOf(board.form), ...factsOf(declared)],
  });
}

/** What becomes of a device too weak by itself, in a unit that the cut-out fuse may back. */
function backedBy(
  declared: Study["job"]["supply"]["declaredFaultCurrentKa"],
  unit: string,
): Outcome<Message> {
  if (declared.state !== "known")
    return { message: "undeclared", verdict: "cannot-tell", missing: [missing(declared)] };
  if (declared.value <= CONDITIONAL_KA) return { message: "conditional", verdict: "pass", action: "caution" };
  const rating = missingFigure(`fault rating of ${unit} behind the main fuse`);
  return { message: "refer", verdict: "cannot-tell", action: "refer", missing: [rating] };
}

/** The larger of what is declared and measured, of those known. */
function originFaultCurrent({ job }: Study): Quantity {
  const declared = given(job.supply.declaredFaultCurrentKa, "I0");
  const measured = given(job.supply.measuredFaultCurrentKa, "I0");
  if (declared.kind === "unknown") return measured;
  if (measured.kind === "unknown") return declared;
  return largest(
    {
      symbol: "I0",
      label: "prospective fault current at the origin",
      unit: "kA",
      clause: "prospective-fault-current",
    },
    [declared, measured],
  );
}
