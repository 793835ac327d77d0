/** Longest line that is read. [characters] */
export const MAX_LINE = 1_000_000;

/**
 * Cuts text into lines as it comes, whatever ends them: LF, CR LF, or CR alone.
 *
 * Holds no more than one line. A line longer than {@link MAX_LINE} is handed to `onLong` and ends the
 * reading.
 */
export class LineSplitter {
  #rest = "";
  #number = 0;
  #end: "\n" | "\r" | null = null;
  #isStopped = false;
  readonly #onLine: (line: string, number: number) => void;
  readonly #onLong: (number: number) => void;

  constructor(onLine: (line: string, number: number) => void, onLong: (number: number) => void) {
    this.#onLine = onLine;
    this.#onLong = onLong;
  }

  push(chunk: string): void {
    if (this.#isStopped || chunk === "") return;
    const text = this.#rest === "" ? chunk : this.#rest + chunk;
    this.#end ??= lineEnd(text);
    let start = 0;
    if (this.#end !== null) {
      // Looked for in the new text only: what waited from before has no end of line in it.
      let found = text.indexOf(this.#end, text.length - chunk.length - 1);
      while (found >= 0) {
        this.#give(text, start, found);
        start = found + 1;
        found = text.indexOf(this.#end, start);
      }
    }
    this.#rest = start === 0 ? text : text.slice(start);
    if (this.#rest.length > MAX_LINE) {
      this.#isStopped = true;
      this.#rest = "";
      this.#onLong(this.#number + 1);
    }
  }

  end(): void {
    if (this.#isStopped || this.#rest === "") return;
    this.#give(this.#rest, 0, this.#rest.length);
    this.#rest = "";
  }

  #give(text: string, start: number, end: number): void {
    const last = this.#end !== "\r" && text.charCodeAt(end - 1) === 13 && end > start ? end - 1 : end;
    this.#onLine(text.slice(start, last), ++this.#number);
  }
}

/** What ends the lines of a text; null while its beginning does not tell. */
function lineEnd(text: string): "\n" | "\r" | null {
  const found = text.search(/[\r\n]/);
  if (found < 0) return null;
  if (text[found] === "\n") return "\n";
  if (found + 1 === text.length) return null;
  return text[found + 1] === "\n" ? "\n" : "\r";
}
