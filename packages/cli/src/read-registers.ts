import { type DumpEntry, dumpOf, parseRegisterDump, type RegisterDumpResult } from "@underfuse/engine";
import { parse } from "csv-parse/sync";
import { Refusal } from "./exit-status.ts";
import { visible } from "./load-job.ts";

/** Columns a person may type, and the base in which a number without 0x stands. */
const COLUMNS: Readonly<
  Record<string, { readonly of: "address" | "value" | "note"; readonly base: 10 | 16 }>
> = {
  address: { of: "address", base: 10 },
  "address hex": { of: "address", base: 16 },
  value: { of: "value", base: 10 },
  "value hex": { of: "value", base: 16 },
  what: { of: "note", base: 10 },
};
const KNOWN = Object.keys(COLUMNS).join(", ");

/**
 * Registers of a file: JSON, or a table with an address and a value a row.
 *
 * @throws Refusal for a table that would have to be guessed at, with its line.
 */
export function readRegisters(text: string, path: string): RegisterDumpResult {
  if (/^\uFEFF?\s*[{[]/.test(text)) return parseRegisterDump(text);
  const refuse = (message: string): never => {
    throw new Refusal(`${path}: ${visible(message)}. The file has not been changed.`);
  };
  let rows: string[][] = [];
  try {
    rows = parse(text, {
      bom: true,
      trim: true,
      skip_empty_lines: true,
      relax_column_count: true,
      delimiter: [",", ";", "\t"],
    });
  } catch (error) {
    refuse(`it is no table of comma-separated values: ${error instanceof Error ? error.message : error}`);
  }
  const [headings = [], ...body] = rows;
  const columns = headings.map(
    (heading) =>
      COLUMNS[
        heading
          .toLowerCase()
          .replace(/[()\s_]+/g, " ")
          .trim()
      ],
  );
  const unknown = columns.indexOf(undefined);
  if (unknown >= 0)
    refuse(
      `column ${unknown + 1}, "${headings[unknown]?.slice(0, 40)}", is not known. A table of registers has the headings address and value; columns there are: ${KNOWN}`,
    );
  for (const of of ["address", "value"] as const) {
    const count = columns.filter((column) => column?.of === of).length;
    if (count !== 1) refuse(`it has ${count === 0 ? "no" : "more than one"} column of the ${of}; give one`);
  }
  const entries: DumpEntry[] = [];
  let [emptyCount, firstEmpty] = [0, 0];
  for (const [index, row] of body.entries()) {
    const line = index + 2;
    if (row.length > columns.length)
      refuse(`line ${line} has more cells than there are headings; write one register a line`);
    const cell = (of: "address" | "value"): { readonly text: string; readonly number: number | null } => {
      const at = columns.findIndex((column) => column?.of === of);
      const text = row[at] ?? "";
      return { text, number: wholeOf(text, columns[at]?.base ?? 10) };
    };
    const [address, value] = [cell("address"), cell("value")];
    if (address.number === null || address.number < 0 || address.number > 65_535)
      refuse(
        `line ${line}, address: "${address.text.slice(0, 40)}" is none; it is a whole number from 0 to 65535, or hexadecimal with 0x in front. Write a number of six digits such as 400001 without its first digit, and see --shift`,
      );
    if (value.text === "") {
      emptyCount++;
      firstEmpty ||= line;
    } else if (value.number === null || value.number < -32_768 || value.number > 65_535)
      refuse(
        `line ${line}, value: "${value.text.slice(0, 40)}" is no register; write the raw number from 0 to 65535, or hexadecimal with 0x in front, before any scale`,
      );
    else entries.push({ address: address.number ?? 0, value: value.number, place: `line ${line}` });
  }
  if (entries.length === 0) refuse("it has no register under its headings");
  const result = dumpOf(entries, null);
  if (!result.ok || emptyCount === 0) return result;
  const remark = `${emptyCount} ${emptyCount === 1 ? "address has" : "addresses have"} no value, first at line ${firstEmpty}: taken as not read, never as zero.`;
  return { ok: true, dump: { ...result.dump, remarks: [...result.dump.remarks, remark] } };
}

/** A whole number, decimal or hexadecimal with 0x in front; in a hexadecimal column without it too. */
function wholeOf(text: string, base: 10 | 16): number | null {
  if (/^0[xX][0-9a-fA-F]{1,8}$/.test(text)) return Number(text);
  if (base === 16) return /^[0-9a-fA-F]{1,8}$/.test(text) ? Number.parseInt(text, 16) : null;
  return /^[-+]?\d{1,9}$/.test(text) ? Number(text) : null;
}
