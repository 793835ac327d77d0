import { missing } from "../../job/index.ts";
import { missingDecision } from "../../worked/index.ts";
import { ownResidual, type PlacedResidual, residualDevices } from "../point-protection.ts";
import { cannotTell, factsOf, type Judgement, rule, UNITED_KINGDOM } from "../rule.ts";
import type { PointCircuit, Study } from "../study.ts";
import { nodeSubject } from "../subjects.ts";

type Message =
  | "none"
  | "typeB"
  | "withDetection"
  | "noDetection"
  | "typeAc"
  | "blindAhead"
  | "severalBehindOne"
  | "typeBBehindOther"
  | "unknown";

/** Direct current from a vehicle cannot blind a residual current device. */
export const directCurrentProtection = rule<Message>({
  id: "direct-current-protection",
  title: "Direct current from a vehicle blinds no residual current device",
  stage: "size",
  jurisdictions: UNITED_KINGDOM,
  messages: {
    none: "{point} has no residual current device of its own to judge.",
    typeB: "{device} is type B.",
    withDetection: "{device} is type {type}, with 6 mA direct-current detection in the charge point.",
    noDetection:
      "{device} is type {type}, and nothing detects direct current above 6 mA. Fit type B, or add direct-current detection.",
    typeAc:
      "{device} is type AC: a few milliamperes of direct current may keep it from tripping. Replace it.",
    blindAhead:
      "{device}, ahead of this point, is type AC and can be blinded for everything else it protects. Replace it or feed the point from before it.",
    severalBehindOne:
      "{device} stands ahead of {count} charge points, each of which may pass up to 6 mA of direct current. A designer must settle its type.",
    typeBBehindOther:
      "A type B device stands behind {device} of type {type}, which its permitted direct current can blind. Feed it from before.",
    unknown: "Record the type of {devices} and whether the charge point detects direct current.",
  },
  judge: (study) => study.circuits.map((circuit) => judgePoint(study, circuit)),
});

function judgePoint(study: Study, circuit: PointCircuit): Judgement<Message> {
  const { point } = circuit;
  const subject = nodeSubject(point, "detectsDirectCurrent");
  const devices = residualDevices(study, circuit);
  const own = ownResidual(devices);
  const facts = factsOf(...devices.map(({ device }) => device.type), point.detectsDirectCurrent);
  const say = (verdict: "pass" | "fail", message: Message, placed?: PlacedResidual): Judgement<Message> => ({
    subject,
    verdict,
    message,
    data: { point: point.label, device: placed?.at.label ?? "", type: typeOf(placed) ?? "" },
    facts,
  });
  const typeAc = devices.find((placed) => typeOf(placed) === "AC");
  if (typeAc !== undefined) return say("fail", typeAc === own ? "typeAc" : "blindAhead", typeAc);
  if (own === undefined) return say("fail", "none");
  const ahead = devices.filter((placed) => placed !== own);
  const unknownTypes = devices.filter((placed) => placed.device.type.state !== "known");
  if (unknownTypes.length > 0) {
    const data = { devices: unknownTypes.map(({ at }) => at.label).join(", ") };
    return cannotTell(
      subject,
      "unknown",
      unknownTypes.map(({ device }) => missing(device.type)),
      { data, facts },
    );
  }
  if (typeOf(own) === "B") {
    const blinded = ahead.find((placed) => typeOf(placed) !== "B");
    return blinded === undefined ? say("pass", "typeB", own) : say("fail", "typeBBehindOther", blinded);
  }
  if (point.detectsDirectCurrent.state !== "known") {
    return cannotTell(subject, "unknown", [missing(point.detectsDirectCurrent)], {
      data: { devices: own.at.label },
      facts,
    });
  }
  if (!point.detectsDirectCurrent.value) return say("fail", "noDetection", own);
  const crowded = ahead
    .map((placed) => ({ placed, count: pointsBehind(study, placed) }))
    .find(({ placed, count }) => typeOf(placed) !== "B" && count > 1);
  if (crowded !== undefined) {
    const device = crowded.placed.at.label;
    const data = { device, count: String(crowded.count) };
    const decision = missingDecision(`type of ${device} ahead of several charge points`);
    return cannotTell(subject, "severalBehindOne", [decision], { data, facts, action: "refer" });
  }
  return say("pass", "withDetection", own);
}

const typeOf = (placed: PlacedResidual | undefined): string | undefined =>
  placed?.device.type.state === "known" ? placed.device.type.value : undefined;

const pointsBehind = (study: Study, placed: PlacedResidual): number =>
  study.tree.endsBelow(placed.at.id).filter((node) => node.kind === "charge-point").length;
