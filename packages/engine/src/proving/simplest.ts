import type { Fault } from "./fault.ts";

interface WithFaults {
  readonly faults: readonly { readonly fault: Fault }[];
}

/**
 * Members of a class that are not merely another of its members with a fault more that changes nothing;
 * in the same order, the first always among them. A sound chain leaves every fault beside it standing.
 */
export function simplest<Member extends WithFaults>(members: readonly Member[]): readonly Member[] {
  const singles = new Set(
    members.filter(({ faults }) => faults.length === 1).flatMap(({ faults }) => faults.map(keyOf)),
  );
  return members.filter(
    ({ faults }, index) =>
      index === 0 || faults.length < 2 || !faults.some((item) => singles.has(keyOf(item))),
  );
}

const keyOf = ({ fault }: { readonly fault: Fault }): string => JSON.stringify(fault);
