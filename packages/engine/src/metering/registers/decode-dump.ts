/**
 * Registers copied from a meter, decoded by a map and by the SunSpec models where the meter names them, with
 * what is known of every number and what is not.
 *
 * Decodes only: which conductor a channel watches, which way round and at which ratio no register says.
 *
 * @module
 */
import type { DecodeLimits } from "./decode-limits.ts";
import { checkDump, type DumpCheck } from "./dump-checks.ts";
import { registerCount } from "./encoding.ts";
import { type Plausibility, plausibilityOf } from "./plausible.ts";
import type { RegisterDump } from "./register-dump.ts";
import { type MeterValue, meterValueOf, type RegisterMap, rowsInOrder } from "./register-map.ts";
import { registersAt } from "./registers-at.ts";
import { shiftOf } from "./shift-hint.ts";
import { readSunspecMeter, type SunspecTables, sunspecPlace } from "./sunspec.ts";
import { walkSunspec } from "./sunspec-walk.ts";
import { type ToldOrder, tellOrder } from "./tell-order.ts";

/** One number of the meter, with the registers it came from. */
export interface DecodedRow extends MeterValue, Plausibility {
  /** Of the first register, as the dump counts. */
  readonly address: number;
  /** As read, the lowest address first. */
  readonly registers: readonly number[];
}

/** A row of the map whose registers were not all read. */
export interface UnreadRow {
  readonly quantity: MeterValue["quantity"];
  readonly channel: MeterValue["channel"];
  /** Addresses that are missing. */
  readonly missing: readonly number[];
}

/** All numbers of one map, or of one SunSpec block. */
export interface DecodedTable {
  readonly title: string;
  readonly rows: readonly DecodedRow[];
  readonly unread: readonly UnreadRow[];
  /** Null for SunSpec, whose order is fixed. */
  readonly order: ToldOrder | null;
  readonly checks: readonly DumpCheck[];
  readonly remarks: readonly string[];
}

export interface DecodedDump {
  readonly tables: readonly DecodedTable[];
  /** Addresses that no number used, in runs. */
  readonly unused: readonly { readonly from: number; readonly to: number }[];
  readonly remarks: readonly string[];
  /** What these registers cannot show, in sentences. */
  readonly cannotTell: readonly string[];
}

/**
 * Decodes a dump.
 *
 * @param map Null where the meter is to be read by its own SunSpec blocks alone
 * @param limits What a healthy supply shows
 *
 * Source: as for the map, for `chooseOrder` and for `checkIdentities`; [sunspec-models] for the blocks.
 */
export function decodeDump(
  dump: RegisterDump,
  map: RegisterMap | null,
  { sunspec, limits }: { readonly sunspec: SunspecTables; readonly limits: DecodeLimits },
): DecodedDump {
  const { registers } = dump;
  const byMap = map === null ? [] : [tableOfMap(map, dump, limits)];
  const blocks = tablesOfSunspec(registers, sunspec, limits);
  const tables = [...byMap, ...blocks.tables];
  const used = new Set([
    ...blocks.used,
    ...tables.flatMap(({ rows }) =>
      rows.flatMap(({ address, registers: own }) => own.map((_, index) => address + index)),
    ),
  ]);
  return {
    tables,
    unused: runsOf([...registers.keys()].filter((address) => !used.has(address))),
    remarks: [
      ...dump.remarks,
      ...blocks.remarks,
      ...(tables.length === 0
        ? [
            "No SunSpec marker stands at an address where it may stand, and no register map was given: nothing could be decoded. Write a map from the meter's manual.",
          ]
        : []),
    ],
    cannotTell: cannotTell(tables),
  };
}

const ADDRESSES_FIRST: ToldOrder = {
  state: "cannot-tell",
  order: null,
  isAgainstMap: false,
  reasons: [
    "The addresses are to be settled first, see below; until then no number here is to be relied on.",
  ],
};

function tableOfMap(map: RegisterMap, dump: RegisterDump, limits: DecodeLimits): DecodedTable {
  const { registers } = dump;
  const shift = shiftOf(map.rows, registers, limits);
  const order = shift === null ? tellOrder(map.rows, registers, limits) : ADDRESSES_FIRST;
  const rows = rowsInOrder(
    order.order === null ? map.rows : map.rows.map(({ order: _said, ...row }) => row),
    order.order ?? "ABCD",
  );
  const read = rows.map((row) => ({
    row,
    ...registersAt(row.address, registerCount(row.type), registers),
  }));
  const found = read.flatMap(({ row, registers: own, missing }) =>
    missing.length > 0 ? [] : [{ ...meterValueOf(row, own), address: row.address, registers: own }],
  );
  return {
    title: `${map.id}, ${map.table} registers`,
    ...judged(found, limits),
    unread: read.flatMap(({ row: { quantity, channel }, missing }) =>
      missing.length === 0 ? [] : [{ quantity, channel, missing }],
    ),
    order,
    remarks: [
      ...(dump.table !== null && dump.table !== map.table
        ? [
            `The dump is of ${dump.table} registers and the map is of ${map.table} registers: the same addresses may hold other numbers. Read the other table.`,
          ]
        : []),
      ...(shift === null
        ? []
        : [
            `The numbers make sense if every address of the dump is taken ${Math.abs(shift)} ${shift > 0 ? "lower" : "higher"}: the program that read them counts otherwise than the map. Give --shift ${-shift} to read them so.`,
          ]),
    ],
  };
}

function tablesOfSunspec(
  registers: ReadonlyMap<number, number>,
  sunspec: SunspecTables,
  limits: DecodeLimits,
): {
  readonly tables: readonly DecodedTable[];
  readonly used: readonly number[];
  readonly remarks: readonly string[];
} {
  const { addresses } = sunspec.bases;
  const elsewhere = [...registers.keys()].filter(
    (address) => registers.get(address) === 0x5375 && registers.get(address + 1) === 0x6e53,
  );
  // A base that was not read must not stop the walk, so only those with the marker are tried.
  const walk = walkSunspec(registers, elsewhere);
  if (walk.base === null) return { tables: [], used: [], remarks: [] };
  const used = [walk.base, walk.base + 1];
  const remarks: string[] = [];
  if (!addresses.includes(walk.base))
    remarks.push(
      `The SunSpec marker stands at ${walk.base}; a meter has it at ${addresses.join(", ")}. The addresses of the dump are counted otherwise; the blocks are read all the same.`,
    );
  if (walk.end === "going-on" && walk.next !== null)
    remarks.push(
      `The dump ends before the next SunSpec block: read on from ${walk.next.address} until a register holds 65535.`,
    );
  if (walk.end === "broken")
    remarks.push(
      "The chain of SunSpec blocks breaks off in a block that cannot be; what stands before it is read.",
    );
  const tables = walk.blocks.flatMap((block): readonly DecodedTable[] => {
    used.push(block.address, block.address + 1);
    const model = sunspec.meters.find(({ id }) => id === block.model);
    if (model === undefined) {
      remarks.push(`SunSpec block ${block.model} at ${block.address} is no meter's and is left out.`);
      return [];
    }
    const reading = readSunspecMeter(model, block, registers, sunspec);
    const found = reading.values.map((value) => {
      const { address, count } = sunspecPlace(model, block, value);
      return { ...value, address, registers: registersAt(address, count, registers).registers };
    });
    return [
      {
        title: `SunSpec model ${model.id}, ${model.title}, at ${block.address}`,
        ...judged(found, limits),
        unread: [],
        order: null,
        remarks: [
          ...reading.remarks,
          ...(reading.missing.length === 0
            ? []
            : [
                `Registers ${runsOf(reading.missing).map(runWords).join(", ")} of the block are not in the dump: what stands there is left open.`,
              ]),
        ],
      },
    ];
  });
  return { tables, used, remarks };
}

type Found = MeterValue & Pick<DecodedRow, "address" | "registers">;

function judged(
  found: readonly Found[],
  limits: DecodeLimits,
): { readonly rows: readonly DecodedRow[]; readonly checks: readonly DumpCheck[] } {
  const checks = checkDump(found, limits);
  return { rows: found.map((value) => ({ ...value, ...plausibilityOf(value, checks, limits) })), checks };
}

function cannotTell(tables: readonly DecodedTable[]): readonly string[] {
  if (tables.length === 0) return [];
  const rows = tables.flatMap((table) => table.rows);
  const hasSign = rows.some(({ sign }) => sign === "unknown");
  return [
    ...(hasSign
      ? [
          "Whether a positive power is import or export: neither map nor model says it. Switch a known load on and read again.",
        ]
      : []),
    "Which conductor each transformer is on, which way round and at which ratio: reversed or exchanged transformers leave every check whole. Read again after a known load step, and give the readings to diagnose.",
  ];
}

/** Addresses in runs without a gap, ascending. */
export function runsOf(
  addresses: readonly number[],
): readonly { readonly from: number; readonly to: number }[] {
  const runs: { from: number; to: number }[] = [];
  for (const address of [...addresses].sort((a, b) => a - b)) {
    const last = runs.at(-1);
    if (last !== undefined && address === last.to + 1) last.to = address;
    else runs.push({ from: address, to: address });
  }
  return runs;
}

export const runWords = ({ from, to }: { readonly from: number; readonly to: number }): string =>
  from === to ? String(from) : `${from} to ${to}`;
