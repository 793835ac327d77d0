/**
 * Values on their way: each becomes true at a step of its own, in the order in which they were put in.
 *
 * Holds a fixed number; a change may be added only while fewer are waiting.
 */
export class ChangeQueue {
  readonly #steps: Float64Array;
  readonly #values: Float64Array;
  #first = 0;
  #count = 0;
  /** Step of the first change that waits; Infinity when none does. */
  nextAt = Number.POSITIVE_INFINITY;

  constructor(capacity: number) {
    this.#steps = new Float64Array(capacity);
    this.#values = new Float64Array(capacity);
  }

  add(step: number, value: number): void {
    const at = (this.#first + this.#count) % this.#steps.length;
    this.#steps[at] = step;
    this.#values[at] = value;
    if (this.#count === 0) this.nextAt = step;
    this.#count++;
  }

  /** Takes the first change off; call it only when one waits. */
  take(): number {
    const value = this.#values[this.#first] as number;
    this.#first = (this.#first + 1) % this.#steps.length;
    this.#count--;
    this.nextAt = this.#count === 0 ? Number.POSITIVE_INFINITY : (this.#steps[this.#first] as number);
    return value;
  }

  clear(): void {
    this.#count = 0;
    this.nextAt = Number.POSITIVE_INFINITY;
  }
}
