/**
 * Reads JSON text more strictly than the platform's parser: a size and a depth limit, no key twice in
 * one object (the platform silently keeps the last, and a rating would be lost), no key that reaches
 * into object prototypes; and every refusal says line and column.
 *
 * Accepts exactly the texts of RFC 8259 that pass those limits.
 *
 * @module
 */
import type { Problem } from "./problem.ts";

export const MAX_CHARACTERS = 20_000_000;
export const MAX_DEPTH = 40;
const BYTE_ORDER_MARK = "\ufeff";
const FORBIDDEN_KEYS = new Set(["__proto__", "constructor", "prototype"]);

export type JsonResult =
  | { readonly ok: true; readonly value: unknown }
  | { readonly ok: false; readonly problem: Problem };

/** Parses JSON text, or says where and why it cannot. */
export function parseJsonText(text: string): JsonResult {
  if (text.length > MAX_CHARACTERS) {
    return refuse(
      "TEXT_TOO_LARGE",
      `${text.length} characters`,
      `The file is larger than a job can be (${MAX_CHARACTERS} characters). Check that this is the job file; keep recordings in files of their own beside it.`,
    );
  }
  const json = text.startsWith(BYTE_ORDER_MARK) ? text.slice(1) : text;
  try {
    new Scanner(json).scan();
  } catch (error) {
    if (error instanceof ScanError) return refuse(error.code, error.received, error.message, error.place);
    throw error;
  }
  return { ok: true, value: JSON.parse(json) };
}

function refuse(code: Problem["code"], received: string, message: string, place = ""): JsonResult {
  return { ok: false, problem: { code, path: place, received, message } };
}

class ScanError extends Error {
  constructor(
    readonly code: Problem["code"],
    readonly place: string,
    readonly received: string,
    message: string,
  ) {
    super(message);
  }
}

const NUMBER = /-?(?:0|[1-9]\d*)(?:\.\d+)?(?:[eE][+-]?\d+)?/y;
const ESCAPE = /\\(?:["\\/bfnrt]|u[0-9a-fA-F]{4})/y;
const SPACE = /[ \t\n\r]*/y;

/** Walks the grammar once without building anything; throws {@link ScanError} at the first fault. */
class Scanner {
  #at = 0;
  constructor(readonly text: string) {}

  scan(): void {
    this.#value(0);
    this.#skipSpace();
    if (this.#at < this.text.length) this.#fail("the end of the file");
  }

  #value(depth: number): void {
    this.#skipSpace();
    const start = this.text[this.#at];
    if (start === "{") this.#object(depth + 1);
    else if (start === "[") this.#array(depth + 1);
    else if (start === '"') this.#string("text in double quotes");
    else if (start === "t") this.#word("true");
    else if (start === "f") this.#word("false");
    else if (start === "n") this.#word("null");
    else this.#match(NUMBER, "a value: text in quotes, a number, true, false, null, { or [");
  }

  #object(depth: number): void {
    this.#enter(depth);
    const keys = new Set<string>();
    if (this.#closes("}")) return;
    do {
      this.#skipSpace();
      const start = this.#at;
      const key = JSON.parse(this.#string("a key in double quotes")) as string;
      if (FORBIDDEN_KEYS.has(key)) {
        throw new ScanError(
          "JSON_FORBIDDEN_KEY",
          this.#place(start),
          key,
          `The key "${key}" is not allowed in a job. Remove it.`,
        );
      }
      if (keys.has(key)) {
        throw new ScanError(
          "JSON_DUPLICATE_KEY",
          this.#place(start),
          key,
          `The key "${key}" stands twice in one object, and only one of them can be meant. Remove the wrong one.`,
        );
      }
      keys.add(key);
      this.#skipSpace();
      this.#word(":");
      this.#value(depth);
    } while (this.#continues("}"));
  }

  #array(depth: number): void {
    this.#enter(depth);
    if (this.#closes("]")) return;
    do this.#value(depth);
    while (this.#continues("]"));
  }

  #enter(depth: number): void {
    if (depth > MAX_DEPTH) {
      throw new ScanError(
        "JSON_TOO_DEEP",
        this.#place(this.#at),
        `more than ${MAX_DEPTH} levels`,
        "Brackets are nested deeper than in any job. Check that this is the job file.",
      );
    }
    this.#at++;
  }

  #closes(bracket: string): boolean {
    this.#skipSpace();
    if (this.text[this.#at] !== bracket) return false;
    this.#at++;
    return true;
  }

  #continues(bracket: string): boolean {
    if (this.#closes(bracket)) return false;
    if (this.text[this.#at] !== ",") this.#fail(`a comma or ${bracket}`);
    this.#at++;
    return true;
  }

  #word(word: string): void {
    if (!this.text.startsWith(word, this.#at)) this.#fail(word);
    this.#at += word.length;
  }

  #match(pattern: RegExp, wanted: string): string {
    pattern.lastIndex = this.#at;
    const found = pattern.exec(this.text)?.[0];
    if (found === undefined) return this.#fail(wanted);
    this.#at += found.length;
    return found;
  }

  /** A loop and not one pattern: a pattern over a string of megabytes exhausts the matcher's stack. */
  #string(wanted: string): string {
    const start = this.#at;
    if (this.text[this.#at] !== '"') this.#fail(wanted);
    this.#at++;
    for (;;) {
      const character = this.text[this.#at];
      if (character === undefined || character < " ") this.#fail(`${wanted}, closed on the same line`);
      if (character === "\\") this.#match(ESCAPE, "a JSON escape such as \\n or \\u00b2 after a backslash");
      else this.#at++;
      if (character === '"') return this.text.slice(start, this.#at);
    }
  }

  #skipSpace(): void {
    SPACE.lastIndex = this.#at;
    this.#at += SPACE.exec(this.text)?.[0].length ?? 0;
  }

  #fail(wanted: string): never {
    const received = this.text.slice(this.#at, this.#at + 20).split("\n")[0] || "end of file";
    throw new ScanError(
      "JSON_SYNTAX",
      this.#place(this.#at),
      received,
      `Expected ${wanted}. A missing comma or quote just before this place is the usual cause.`,
    );
  }

  #place(at: number): string {
    const before = this.text.slice(0, at).split("\n");
    return `line ${before.length}, column ${(before.at(-1)?.length ?? 0) + 1}`;
  }
}
