import { prospectiveAt } from "../../circuits/index.ts";
import { given, missing } from "../../job/index.ts";
import type { NodeOfKind } from "../../supply/index.ts";
import {
  type Check,
  decide,
  largest,
  type Missing,
  missingFigure,
  type Quantity,
} from "../../worked/index.ts";
import { compare, factsOf, type Judgement, type Outcome, rule, shownOf, UNITED_KINGDOM } from "../rule.ts";
import { hasOvercurrent, type PointCircuit, type Study } from "../study.ts";
import { nodeSubject } from "../subjects.ts";

type Message = "breaks" | "conditional" | "undeclared" | "backingUnknown" | "refer" | "tooLow" | "unknown";

/** Cut-out fuses that limit the energy of a fault as a consumer unit is tested with. */
const BACKING_FUSES: readonly string[] = ["bs-88-3", "bs-1361-ii"];

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
      "{device}: {fault} prospective is above its own {capacity}. Ask the operator what fault current is declared: up to {most} the cut-out fuse backs a consumer unit in a dwelling.",
    backingUnknown:
      "{device}: {fault} prospective is above its own {capacity}. In a dwelling the cut-out fuse may back a consumer unit up to {most}: record the premises, the kind of board and the main fuse.",
    refer:
      "{device}: {fault} prospective, own capacity {capacity}, and more than the {most} up to which a consumer unit is tested behind the cut-out. Ask the assembly's maker for its rating behind this cut-out, and let a designer settle it.",
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
  const { job, tree, figures, u0 } = study;
  const node = tree.node(id);
  if (!hasOvercurrent(node)) throw new TypeError(`${id} has no overcurrent device`);
  const subject = nodeSubject(node, "overcurrent.breakingCapacityKa");
  const origin = originFaultCurrent(study);
  const path = circuit.path.slice(0, circuit.path.findIndex((cable) => cable.to === id) + 1);
  const fault = prospectiveAt(origin, u0, path, study.loops, figures);
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
  const alone = compare({ ...base, holds: "breaks", broken: "tooLow" });
  if (alone.verdict !== "fail") return alone;
  const board = tree.nodesTo(id).findLast((item) => item.kind === "board");
  const backing = backingOf(study, board, origin);
  if (backing === "none") return alone;
  const most = figures("conditionalRatingKa");
  const isWithin = decide({ left: fault, relation: "<=", right: most }).state === "holds";
  return compare({
    ...base,
    holds: "breaks",
    broken: isWithin
      ? outcomeBacked(backing, job.supply.declaredFaultCurrentKa)
      : {
          message: "refer",
          verdict: "cannot-tell",
          action: "refer",
          missing: [missingFigure(`fault rating of ${board?.label} behind the main fuse`)],
        },
    data: { ...data, most: shownOf(most, 0) },
    facts: [
      ...facts,
      ...(board ? factsOf(board.form) : []),
      ...factsOf(
        job.supply.declaredFaultCurrentKa,
        tree.cutOut.overcurrent.standard,
        tree.cutOut.overcurrent.ratingA,
      ),
    ],
    workings: [most],
  });
}

/** Facts on which it hangs whether the cut-out fuse backs a consumer unit; "none" once one of them says no. */
function backingOf(
  { job, tree, figures }: Study,
  board: NodeOfKind<"board"> | undefined,
  origin: Quantity,
): readonly Missing[] | "none" {
  if (board === undefined || job.supply.phases !== 1) return "none";
  const { standard, ratingA, breakingCapacityKa } = tree.cutOut.overcurrent;
  const isBroken = (check: Check): boolean => decide(check).state === "broken";
  const speaksAgainst =
    (job.site.premises.state === "known" && job.site.premises.value !== "dwelling") ||
    (board.form.state === "known" && board.form.value !== "consumer-unit") ||
    (standard.state === "known" && !BACKING_FUSES.includes(standard.value)) ||
    isBroken({ left: given(ratingA, "In"), relation: "<=", right: figures("conditionalFuseA") }) ||
    isBroken({ left: origin, relation: "<=", right: given(breakingCapacityKa, "Icn") });
  if (speaksAgainst) return "none";
  return [job.site.premises, board.form, standard, ratingA]
    .filter((fact) => fact.state !== "known")
    .map((fact) => missing(fact));
}

/** What becomes of a device too weak by itself, in a unit that the cut-out fuse may back. */
function outcomeBacked(
  lacks: readonly Missing[],
  declared: Study["job"]["supply"]["declaredFaultCurrentKa"],
): Outcome<Message> {
  if (lacks.length > 0) return { message: "backingUnknown", verdict: "cannot-tell", missing: lacks };
  return declared.state === "known"
    ? { message: "conditional", verdict: "pass", action: "caution" }
    : { message: "undeclared", verdict: "cannot-tell", missing: [missing(declared)] };
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
