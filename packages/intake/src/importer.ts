/**
 * Reads a recording of demand, chunk by chunk, and says what it concluded.
 *
 * What the file shows is concluded, each conclusion with its evidence; what would change the numbers and
 * cannot be told is asked for; what is wrong is refused with its place. Nothing is guessed, and no reading is
 * moved to where it fits. Holds the numbers of the file and never its text.
 *
 * @module
 */
import { CleanFileReader } from "./clean-file.ts";
import { isCleanHeading, mayBeClean } from "./clean-form.ts";
import { EspiReader } from "./espi/espi-reader.ts";
import type { ImportResult } from "./import-result.ts";
import { Notes } from "./notes.ts";
import type { Statements } from "./statements.ts";
import { TableReader } from "./table/table-reader.ts";
import { TextChunks } from "./text/decoder.ts";

/** Something that reads text in chunks. */
interface Reader {
  push(text: string): void;
  end(): ImportResult;
}

type KindOfReader = new (stated: Statements, notes: Notes) => Reader;

/** Most that is held before it is said what a text is of. [characters] */
const MOST_HELD = 10_000;

export class Importer {
  readonly #notes = new Notes();
  readonly #stated: Statements;
  readonly #text = new TextChunks();
  #reader: Reader | null = null;
  /** Text that does not show yet what it is of. */
  #held = "";

  constructor(stated: Statements = {}) {
    this.#stated = stated;
  }

  /** True when nothing that follows can change the result: the rest of the file need not be read. */
  get isSettled(): boolean {
    return this.#notes.isFull;
  }

  push(bytes: Uint8Array): void {
    this.#take(this.#text.push(bytes));
  }

  end(): ImportResult {
    this.#take(this.#text.end());
    if (this.#held.trim() === "") this.#held = "";
    return (this.#reader ?? this.#begin(TableReader)).end();
  }

  #take(text: string): void {
    if (this.#reader !== null) {
      this.#reader.push(text);
      return;
    }
    this.#held += text;
    const Kind = kindOf(this.#held);
    if (Kind !== null) this.#begin(Kind);
  }

  #begin(Kind: KindOfReader): Reader {
    const reader = new Kind(this.#stated, this.#notes);
    reader.push(this.#held);
    this.#held = "";
    this.#reader = reader;
    return reader;
  }
}

/** What reads a text that begins so; null while more of it must be seen. */
function kindOf(text: string): KindOfReader | null {
  const start = text.search(/\S/);
  if (start < 0) return text.length < MOST_HELD ? null : TableReader;
  if (text[start] === "<") return EspiReader;
  const [line = "", ...others] = text.slice(0, MOST_HELD).split(/\r?\n/, 2);
  if (!mayBeClean(line)) return TableReader;
  if (others.length === 0 && line.length < MOST_HELD) return null;
  return isCleanHeading(line) ? CleanFileReader : TableReader;
}

/** How far an import has come. */
export interface ImportProgress {
  readonly bytesRead: number;
}

/**
 * Imports everything a source of bytes gives.
 *
 * @param source A stream of the platform, or anything that gives chunks one after another.
 * @throws The signal's reason when it is aborted; whatever the source throws.
 */
export async function importFrom(
  source: AsyncIterable<Uint8Array> | ReadableStream<Uint8Array>,
  options: {
    readonly stated?: Statements;
    readonly onProgress?: (progress: ImportProgress) => void;
    readonly signal?: AbortSignal;
  } = {},
): Promise<ImportResult> {
  const importer = new Importer(options.stated);
  let bytesRead = 0;
  for await (const bytes of chunksOf(source)) {
    options.signal?.throwIfAborted();
    importer.push(bytes);
    bytesRead += bytes.length;
    options.onProgress?.({ bytesRead });
    if (importer.isSettled) break;
  }
  options.signal?.throwIfAborted();
  return importer.end();
}

/** Not every browser lets a stream be walked like a list. */
async function* chunksOf(
  source: AsyncIterable<Uint8Array> | ReadableStream<Uint8Array>,
): AsyncGenerator<Uint8Array> {
  if (Symbol.asyncIterator in source) {
    yield* source;
    return;
  }
  const reader = (source as ReadableStream<Uint8Array>).getReader();
  try {
    for (;;) {
      const { done, value } = await reader.read();
      if (done) return;
      yield value;
    }
  } finally {
    await reader.cancel();
  }
}
