/**
 * Registers as somebody copied them from a meter, with nothing decoded.
 *
 * Every value is kept as it was read; where one address stands twice with two values, nothing is chosen.
 *
 * @module
 */
import * as z from "zod";
import {
  number,
  type Problem,
  parseJsonText,
  problemOfFormat,
  schemaProblems,
  wholeNumber,
} from "../../job/index.ts";

export const REGISTERS_FORMAT = "underfuse-registers";
const TABLES = ["holding", "input"] as const;

const count = number(-32_768, 65_535).int();
const hexadecimal = z
  .string()
  .regex(/^0[xX][0-9a-fA-F]{1,4}$/, "must be hexadecimal of up to four digits, such as 0x43a0");

const registersSchema = z
  .strictObject({
    format: z.literal(REGISTERS_FORMAT),
    formatVersion: z.literal(1),
    table: z.enum(TABLES).optional().meta({ description: "Read with function 03, or with function 04." }),
    blocks: z
      .array(
        z.strictObject({
          from: wholeNumber(0, 0xffff).meta({ description: "Address of the first, zero-based." }),
          values: z
            .array(z.union([count, hexadecimal]))
            .min(1)
            .max(0x1_0000),
        }),
      )
      .min(1)
      .max(0x1_0000),
  })
  .meta({
    title: "Underfuse registers",
    description: "Registers as they were read from a meter, block by block, nothing decoded.",
  });

export interface RegisterDump {
  /** Null where nobody said which. */
  readonly table: (typeof TABLES)[number] | null;
  /** By address as given. 0 to 65535 */
  readonly registers: ReadonlyMap<number, number>;
  /** Sentences about what was read and how it was taken. */
  readonly remarks: readonly string[];
}

export type RegisterDumpResult =
  | { readonly ok: true; readonly dump: RegisterDump }
  | { readonly ok: false; readonly problems: readonly Problem[] };

/** One register and where it stood, such as "line 4". */
export interface DumpEntry {
  /** 0 to 65535 */
  readonly address: number;
  /** −32768 to 65535 */
  readonly value: number;
  readonly place: string;
}

/** Reads registers from their text: the dump, or what stands in the way and how to mend it. Never throws. */
export function parseRegisterDump(text: string): RegisterDumpResult {
  const json = parseJsonText(text);
  if (!json.ok) return { ok: false, problems: [json.problem] };
  const other = problemOfFormat(json.value, {
    format: REGISTERS_FORMAT,
    code: "NOT_REGISTERS",
    what: "a file of registers",
  });
  if (other !== null) return { ok: false, problems: [other] };
  const parsed = registersSchema.safeParse(json.value, { reportInput: false });
  if (!parsed.success)
    return { ok: false, problems: schemaProblems(parsed.error.issues, json.value, registersSchema) };
  const { blocks, table = null } = parsed.data;
  const beyond = blocks.findIndex(({ from, values }) => from + values.length > 0x1_0000);
  if (beyond >= 0)
    return {
      ok: false,
      problems: [
        {
          code: "FIELD_OUT_OF_RANGE",
          path: `blocks[${beyond}].values`,
          received: `${blocks[beyond]?.values.length} values from ${blocks[beyond]?.from}`,
          message: "There are more values than addresses up to 65535. Check where the block begins.",
        },
      ],
    };
  return dumpOf(
    blocks.flatMap(({ from, values }, block) =>
      values.map((value, index) => ({
        address: from + index,
        value: Number(value),
        place: `blocks[${block}].values[${index}]`,
      })),
    ),
    table,
  );
}

/** Registers from what was given one by one. A negative value is the same 16 bits shown with a sign. */
export function dumpOf(entries: readonly DumpEntry[], table: RegisterDump["table"]): RegisterDumpResult {
  const registers = new Map<number, number>();
  const places = new Map<number, string>();
  const problems: Problem[] = [];
  let [signed, repeated] = [0, 0];
  for (const { address, value, place } of entries) {
    const register = value < 0 ? value + 0x1_0000 : value;
    if (value < 0) signed++;
    const before = registers.get(address);
    if (before === register) repeated++;
    else if (before !== undefined)
      problems.push({
        code: "REGISTER_TWICE",
        path: place,
        received: `${register} at address ${address}`,
        message: `Address ${address} stands at ${places.get(address)} already, with ${before}. Keep the one that belongs to the rest; two moments or two tables belong in two files.`,
      });
    registers.set(address, register);
    places.set(address, place);
  }
  if (problems.length > 0) return { ok: false, problems: problems.slice(0, 50) };
  return {
    ok: true,
    dump: {
      table,
      registers,
      remarks: [
        ...(signed > 0
          ? [
              `${signed} of the registers ${signed === 1 ? "is" : "are"} negative: taken as 16 bits shown with a sign.`,
            ]
          : []),
        ...(repeated > 0
          ? [
              `${repeated} of the registers ${repeated === 1 ? "stands" : "stand"} twice with one value: taken once.`,
            ]
          : []),
      ],
    },
  };
}

/** The format of registers as JSON Schema (draft 2020-12). */
export const registersJsonSchema = (): object => z.toJSONSchema(registersSchema, { io: "input" });
