import { missing } from "../../job/index.ts";
import { cannotTell, factsOf, notApplicable, rule, UNITED_KINGDOM } from "../rule.ts";
import { nodeSubject } from "../subjects.ts";

/** An outdoor charge point keeps splashing water out: IPX4 or better. */
export const weatherProtection = rule({
  id: "weather-protection",
  title: "An outdoor charge point keeps water out",
  stage: "decide",
  jurisdictions: UNITED_KINGDOM,
  messages: {
    indoors: "{point} is indoors.",
    enough: "{point}: {ip}; IPX4 is asked for outdoors.",
    tooLittle:
      "{point}: {ip} does not keep splashing water out. Choose IPX4 or better, or move it under cover.",
    unknown: "{point}: record whether it is outdoors and its degree of protection.",
  },
  judge: ({ circuits }) =>
    circuits.map(({ point }) => {
      const subject = nodeSubject(point, "inletIp");
      const { isOutdoors, inletIp } = point;
      const facts = factsOf(isOutdoors, inletIp);
      const data = { point: point.label, ip: inletIp.state === "known" ? inletIp.value : "–" };
      if (isOutdoors.state === "known" && !isOutdoors.value)
        return { ...notApplicable(subject, "indoors", facts), data };
      if (isOutdoors.state !== "known" || inletIp.state !== "known") {
        const unknown = [isOutdoors, inletIp].filter((fact) => fact.state !== "known");
        return cannotTell(subject, "unknown", unknown.map(missing), { data, facts });
      }
      const water = Number(inletIp.value[3]);
      return water >= 4
        ? ({ subject, verdict: "pass", message: "enough", data, facts } as const)
        : ({ subject, verdict: "fail", message: "tooLittle", data, facts } as const);
    }),
});
