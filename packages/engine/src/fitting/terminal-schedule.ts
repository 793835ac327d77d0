import type { JobOnTree } from "../supply/index.ts";

/** One wire of the metering chain: where it begins, where it ends, and how it is checked. */
export interface WireRow {
  readonly wire: string;
  readonly from: string;
  readonly to: string;
  readonly check: string;
}

/**
 * Every wire of transformers, voltage taps and bus, in the order of connection.
 *
 * Current into P1 leaves S1 at the same instant (IEC 61869-2, recalled): with P1 to the supply and S1 on the
 * first terminal of an input, import reads positive. The bus is named by D0 and D1; with a polarised line
 * and nothing sent D1 stands above D0 by more than 0.2 V (MODBUS over Serial Line V1.02, 3.3.2).
 */
export function terminalSchedule({ job, tree }: JobOnTree): readonly WireRow[] {
  const { metering, bus } = job;
  if (metering === null) return [];
  const secondaries = metering.currentTransformers.flatMap(({ id, channel, output }): WireRow[] => {
    const isCurrent = output.state !== "known" || output.value === "1-A" || output.value === "5-A";
    const check = isCurrent
      ? "Tug; with the supply isolated and the link out, continuity through the lead and the secondary"
      : "As supplied, not lengthened";
    return [
      { wire: `${id} S1`, from: `${id}, S1`, to: `meter input ${channel}, first terminal`, check },
      { wire: `${id} S2`, from: `${id}, S2`, to: `meter input ${channel}, second terminal`, check },
    ];
  });
  const lines = tree.serviceCable.lines;
  const taps: WireRow[] = [
    { wire: "tap N", from: "neutral", to: "meter, N", check: "Two-pole tester: N to earth near 0 V" },
    ...lines.map((line) => ({
      wire: `tap ${line}`,
      from: `${line}, through the tap's fuse`,
      to: `meter, voltage ${line}`,
      check:
        lines.length === 3
          ? `Near 230 V to N; near 400 V to the other lines; near 0 V to ${line} at the transformer of its channel`
          : "Near 230 V to N",
    })),
  ];
  const isSerial = bus !== null && bus.kind.state === "known" && bus.kind.value === "rs-485";
  const pair: WireRow[] = isSerial
    ? [
        {
          wire: "D1",
          from: "meter, D1",
          to: "load manager, D1",
          check: "Idle: D1 above D0 by more than 0.2 V; if below, exchange the two",
        },
        {
          wire: "D0",
          from: "meter, D0",
          to: "load manager, D0",
          check: "Power off: 60 to 75 Ω to D1 with both ends terminated; 120 to 150 Ω with one",
        },
        {
          wire: "common",
          from: "meter, common",
          to: "load manager, common",
          check: "Continuity; earthed at one place only",
        },
        {
          wire: "screen",
          from: "meter end, insulated",
          to: "earth at the load manager's end",
          check: "Continuity to earth at one end, none at the other",
        },
      ]
    : [];
  return [...secondaries, ...taps, ...pair];
}
