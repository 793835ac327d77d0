/**
 * Reads a recording of demand, chunk by chunk, and says what it concluded.
 *
 * What the file shows is concluded, each conclusion with its evidence; what would change the numbers and
 * cannot be told is asked for; what is wrong is refused with its place. Nothing is guessed, and no reading is
 * moved to where it fits. Holds the numbers of the file and never its text.
 *
 * @module
 */
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

export class Importer {
  readonly #notes = new Notes();
  readonly #stated: Statements;
  readonly #text = new TextChunks();
  #reader: Reader | null = null;
  /** Text before the first character that is not a blank. */
  #blank = "";

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
    this.#reader ??= new TableReader(this.#stated, this.#notes);
    return this.#reader.end();
  }

  #take(text: string): void {
    if (this.#reader !== null) {
      this.#reader.push(text);
      return;
    }
    const known = this.#blank + text;
    const start = known.search(/\S/);
    if (start < 0 && known.length < 10_000) {
      this.#blank = known;
      return;
    }
    this.#blank = "";
    const Kind = known[start] === "<" ? EspiReader : TableReader;
    this.#reader = new Kind(this.#stated, this.#notes);
    this.#reader.push(known);
  }
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
