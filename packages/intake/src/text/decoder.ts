/**
 * Bytes of unknown origin as text, chunk by chunk. UTF-8 unless the first bytes mark UTF-16.
 *
 * A byte that is no UTF-8 becomes U+FFFD: it can spoil a heading, never a number.
 *
 * @module
 */
export class TextChunks {
  #decoder: InstanceType<typeof TextDecoder> | null = null;
  #head: Uint8Array = new Uint8Array(0);

  push(bytes: Uint8Array): string {
    if (this.#decoder !== null) return this.#decoder.decode(bytes, { stream: true });
    this.#head = joined(this.#head, bytes);
    return this.#head.length < 2 ? "" : this.#begin();
  }

  end(): string {
    const rest = this.#decoder === null ? this.#begin() : "";
    return rest + (this.#decoder?.decode() ?? "");
  }

  #begin(): string {
    const [a, b] = this.#head;
    const encoding = a === 0xff && b === 0xfe ? "utf-16le" : a === 0xfe && b === 0xff ? "utf-16be" : "utf-8";
    this.#decoder = new TextDecoder(encoding);
    const text = this.#decoder.decode(this.#head, { stream: true });
    this.#head = new Uint8Array(0);
    return text;
  }
}

function joined(first: Uint8Array, second: Uint8Array): Uint8Array {
  if (first.length === 0) return second;
  const both = new Uint8Array(first.length + second.length);
  both.set(first);
  both.set(second, first.length);
  return both;
}
