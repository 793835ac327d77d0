import type { Located, ResidualDevice } from "../job/index.ts";
import type { SupplyCable } from "../supply/index.ts";
import type { PointCircuit, Study } from "./study.ts";

export interface PlacedResidual {
  readonly device: Located<ResidualDevice>;
  readonly at: { readonly id: string; readonly label: string };
  /** Place of the device in the job. */
  readonly path: string;
  /** Ends it protects besides this charge point. */
  readonly alsoProtects: readonly string[];
}

/** Residual current devices in series with a charge point, supply side first, one inside it last. */
export function residualDevices({ tree }: Study, circuit: PointCircuit): readonly PlacedResidual[] {
  const outside = circuit.nodes.flatMap((node): PlacedResidual[] => {
    if (!("residual" in node) || node.residual === null) return [];
    const others = tree.endsBelow(node.id).filter((end) => end.id !== circuit.point.id);
    return [
      {
        device: node.residual,
        at: node,
        path: `nodes[${node.id}].residual`,
        alsoProtects: others.map((end) => end.label),
      },
    ];
  });
  const { point } = circuit;
  return point.residualInside === null
    ? outside
    : [
        ...outside,
        {
          device: point.residualInside,
          at: point,
          path: `nodes[${point.id}].residualInside`,
          alsoProtects: [],
        },
      ];
}

/** Those of them that stand at the start of a cable of the circuit or nearer the supply. */
export function residualDevicesAhead(
  study: Study,
  circuit: PointCircuit,
  cable: SupplyCable,
): readonly PlacedResidual[] {
  const ids = circuit.nodes.map(({ id }) => id);
  const ahead = new Set(ids.slice(0, ids.indexOf(cable.from) + 1));
  return residualDevices(study, circuit).filter(({ at }) => ahead.has(at.id));
}

/** The device that protects this charge point and nothing else, nearest to it; undefined when there is none. */
export const ownResidual = (devices: readonly PlacedResidual[]): PlacedResidual | undefined =>
  devices.findLast((placed) => placed.alsoProtects.length === 0);
