import type { ImportResult } from "../import-result.ts";
import { Importer } from "../importer.ts";
import type { RecordedSeries } from "../series/recorded-series.ts";
import type { Statements } from "../statements.ts";

/** What the importer makes of a text, handed over in chunks of so many bytes. */
export function imported(text: string, stated: Statements = {}, chunkBytes = 1 << 16): ImportResult {
  const bytes = new TextEncoder().encode(text);
  const importer = new Importer(stated);
  for (let at = 0; at < bytes.length; at += chunkBytes) importer.push(bytes.subarray(at, at + chunkBytes));
  return importer.end();
}

/** The series of a text that is expected to give one. */
export function seriesOf(text: string, stated: Statements = {}): RecordedSeries {
  const result = imported(text, stated);
  if (result.state !== "series") throw new Error(JSON.stringify(result, null, 1));
  return result.series;
}

/** What was concluded of one thing. */
export const concluded = (result: ImportResult, id: string): string | undefined =>
  result.conclusions.find((conclusion) => conclusion.id === id)?.says;
