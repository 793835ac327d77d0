import { LINES, READINGS_FORMAT } from "@underfuse/engine";
import { parse } from "csv-parse/sync";

type Cell = { readonly path: readonly string[]; readonly isText?: true };

/** Columns a person may type, and where each belongs. Case and spaces do not matter. */
const COLUMNS: Readonly<Record<string, Cell>> = {
  step: { path: ["id"], isText: true },
  what: { path: ["what"], isText: true },
  "car a": { path: ["chargePoint", "offeredA"] },
  "car lines": { path: ["chargePoint", "lines"], isText: true },
  "load w": { path: ["loads", "watts"] },
  "load line": { path: ["loads", "line"], isText: true },
  generation: { path: ["generation"], isText: true },
  "total w": { path: ["meter", "totalWatts"] },
  "total kw": { path: ["meter", "totalKilowatts"] },
  "total var": { path: ["meter", "totalVars"] },
  ...Object.fromEntries(
    LINES.flatMap((line) => {
      const key = line.toLowerCase();
      const at = (unit: string, name: string): [string, Cell] => [
        `${key} ${unit}`,
        { path: ["meter", line, name] },
      ];
      return [
        at("v", "volts"),
        at("a", "amps"),
        at("w", "watts"),
        at("kw", "kilowatts"),
        at("var", "vars"),
        at("kvar", "kilovars"),
        at("pf", "powerFactor"),
        [`clamp ${key} a`, { path: ["clampA", line] }] as [string, Cell],
        [`car ${key} a`, { path: ["chargePoint", "drawnA", line] }] as [string, Cell],
      ];
    }),
  ),
};

export type CsvReadings =
  | { readonly ok: true; readonly value: unknown }
  | { readonly ok: false; readonly message: string };

/** Readings typed as a table, one step a row, as the value the engine reads. Units stand in the headings. */
export function readingsFromCsv(text: string): CsvReadings {
  let rows: string[][];
  try {
    rows = parse(text, {
      bom: true,
      trim: true,
      skip_empty_lines: true,
      relax_column_count: true,
      delimiter: [",", ";", "\t"],
    });
  } catch (error) {
    return { ok: false, message: `it is no table of comma-separated values: ${(error as Error).message}` };
  }
  const [heading, ...body] = rows;
  if (heading === undefined || body.length === 0)
    return { ok: false, message: "it has no row of readings under its headings" };
  const names = heading.map((name) =>
    name
      .toLowerCase()
      .replace(/[()[\]_]/g, " ")
      .replace(/\s+/g, " ")
      .trim(),
  );
  const unknown = names.findIndex((name) => COLUMNS[name] === undefined);
  if (unknown >= 0)
    return {
      ok: false,
      message: `column ${unknown + 1}, "${heading[unknown]?.slice(0, 40)}", is not known. A heading names the channel and the unit. ${columnsLike(names[unknown] ?? "")}`,
    };
  const steps: unknown[] = [];
  for (const [index, row] of body.entries()) {
    const step: Record<string, unknown> = { id: `row ${index + 2}`, meter: {} };
    for (const [column, text] of row.entries()) {
      const cell = COLUMNS[names[column] ?? ""];
      if (text === "") continue;
      if (cell === undefined)
        return {
          ok: false,
          message: `line ${index + 2} has more cells than there are headings; was a decimal comma used? Write 12.5`,
        };
      const value = cell.isText ? text : Number(text.replace(/\s/g, ""));
      if (typeof value === "number" && !Number.isFinite(value))
        return {
          ok: false,
          message: `line ${index + 2}, column ${column + 1}, "${heading[column]}": "${text}" is not a number; write 1234.5`,
        };
      place(step, cell.path, value);
    }
    const lines = (step.chargePoint as Record<string, unknown> | undefined)?.lines;
    if (typeof lines === "string" && !/^(L[123][\s+&/]*)+$/i.test(lines))
      return {
        ok: false,
        message: `line ${index + 2}, column "car lines": "${lines.slice(0, 40)}" names no lines; write L1, or L1 L2 L3`,
      };
    steps.push(tidy(step));
  }
  return { ok: true, value: { format: READINGS_FORMAT, formatVersion: 1, steps } };
}

/** Columns that begin as an unknown heading does; all of them where none do. */
function columnsLike(name: string): string {
  const all = Object.keys(COLUMNS);
  const start = name.split(" ")[0] ?? "";
  const like = start === "" ? [] : all.filter((column) => column.split(" ").includes(start));
  const shown = (like.length > 0 ? like : all).map((column) =>
    column
      .replace(/\b(l[123]|v|a|w|pf)\b/g, (part) => part.toUpperCase())
      .replace(/\bk(w|var)\b/gi, (_all, unit: string) => `k${unit === "w" ? "W" : unit}`),
  );
  return `${like.length > 0 ? "Columns like it are" : "Columns there are"}: ${shown.join(", ")}`;
}

function place(step: Record<string, unknown>, path: readonly string[], value: unknown): void {
  const [name, ...rest] = path as [string, ...string[]];
  if (rest.length === 0) {
    step[name] = value;
    return;
  }
  step[name] ??= {};
  place(step[name] as Record<string, unknown>, rest, value);
}

/** "L1 L2" becomes a list; a charge point without lines draws on L1; one load becomes a list of one. */
function tidy(step: Record<string, unknown>): unknown {
  const car = step.chargePoint as Record<string, unknown> | undefined;
  const load = step.loads as Record<string, unknown> | undefined;
  return {
    ...step,
    ...(car && {
      chargePoint: {
        offeredA: 0,
        ...car,
        lines:
          String(car.lines ?? "L1")
            .toUpperCase()
            .match(/L[123]/g) ?? [],
      },
    }),
    ...(load && { loads: [{ line: "L1", ...load }] }),
    ...(typeof step.generation === "string" && { generation: step.generation.toLowerCase() }),
  };
}
