import {
  type Diagnosis,
  type NamedFault,
  type Proof,
  type RankedMeasurement,
  simplest,
} from "../proving/index.ts";

const faultJson = ({ id, channels, fault }: NamedFault): unknown => ({ ...fault, id, channels });

/** Members of a class that are written out, the simplest ones only; the rest are counted. */
const WRITTEN = 100;

/** A diagnosis for other programs: hypotheses by class, the likeliest first. */
export function diagnosisJson(diagnosis: Diagnosis, next: readonly RankedMeasurement[]): unknown {
  return {
    chain: diagnosis.mark,
    isTold: diagnosis.isTold,
    isRestless: diagnosis.weighing.isRestless,
    somethingElse: diagnosis.somethingElse,
    hypotheses: diagnosis.classes.map(({ probability, members }) => ({
      faults: members[0]?.faults.map(faultJson) ?? [],
      channels: [...new Set(members[0]?.faults.flatMap(({ channels }) => channels) ?? [])],
      probability,
      alike: simplest(members)
        .slice(1, WRITTEN)
        .map((member) => ({ faults: member.faults.map(faultJson), probability: member.probability })),
      alikeNotWritten: members.length - Math.min(WRITTEN, simplest(members).length),
    })),
    busCauses: diagnosis.busCauses,
    estimates: diagnosis.estimates,
    contradictions: diagnosis.contradictions,
    remarks: diagnosis.remarks,
    next,
  };
}

export const proofJson = ({
  mark,
  isOfThisChain,
  isComplete,
  ratioTolerance,
  properties,
}: Proof): unknown => ({
  chain: mark,
  isOfThisChain,
  isComplete,
  ratioTolerance,
  properties: properties.map(({ stands, ...rest }) => ({
    ...rest,
    notRuledOut: stands?.map(({ fault }) => fault) ?? [],
  })),
});
