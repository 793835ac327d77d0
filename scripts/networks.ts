import { readFileSync } from "node:fs";
import type { FourWireNetwork, FourWireSection } from "@underfuse/engine";

interface StoredSection extends Pick<FourWireSection, "id" | "from" | "to" | "lines"> {
  readonly lineResistanceOhm: number;
  readonly lineReactanceOhm: number;
  readonly neutralResistanceOhm: number;
  readonly neutralReactanceOhm: number;
}

/** The reference networks, ready to be solved. */
export function readNetworks(): readonly FourWireNetwork[] {
  const { networks } = JSON.parse(readFileSync("reference/networks/four_wire.json", "utf8"));
  return networks.map(
    (
      network: Omit<FourWireNetwork, "sections"> & { sections: readonly StoredSection[] },
    ): FourWireNetwork => ({
      nominalVoltageV: network.nominalVoltageV,
      source: "source",
      loads: network.loads,
      sections: network.sections.map(({ id, from, to, lines, ...ohm }) => ({
        id,
        from,
        to,
        lines,
        lineOhm: { re: ohm.lineResistanceOhm, im: ohm.lineReactanceOhm },
        neutralOhm: { re: ohm.neutralResistanceOhm, im: ohm.neutralReactanceOhm },
      })),
    }),
  );
}
