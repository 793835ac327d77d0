import { requireInRange } from "../quantities/index.ts";
import { philox4x32 } from "./philox.ts";

/**
 * What a stream of random numbers is for. Two purposes never share a number, so that what is drawn for
 * one cannot shift or echo what is drawn for another. A number once given is never given again.
 */
export const STREAM_PURPOSES = {
  household: 1,
  appliances: 2,
  weather: 3,
  "car-habit": 4,
  "car-day": 5,
} as const;
export type StreamPurpose = keyof typeof STREAM_PURPOSES;

const MAX_WORD = 0xffff_ffff;
const TO_UNIT = 2 ** -32;

/**
 * Random numbers by place instead of by turn: one independent stream for each seed, purpose, site and day.
 *
 * Whoever draws first, on whichever thread, a stream holds the same numbers; so results do not depend on
 * the order or the division of the work. One object is moved from place to place, which costs nothing:
 *
 *     const random = new RandomStream(seed);
 *     random.start("car-day", { site, day }).uniform();
 *
 * Key: the low and the high word of the seed. Counter: block, day, site, purpose. Each block gives four
 * words, used in order. See `philox.ts` for the algorithm.
 */
export class RandomStream {
  readonly #key: Uint32Array;
  readonly #counter = new Uint32Array(4);
  readonly #block = new Uint32Array(4);
  #used = 4;

  /**
   * @param seed A whole number from 0 to 2^53 − 1. The stream stands at the start of no place until `start`.
   * @throws EngineError OUT_OF_DOMAIN for any other seed.
   */
  constructor(seed: number) {
    requireInRange("seed", Number.isInteger(seed) ? seed : Number.NaN, 0, Number.MAX_SAFE_INTEGER);
    this.#key = Uint32Array.of(seed, Math.floor(seed / 2 ** 32));
  }

  /**
   * Moves to the beginning of a place's numbers.
   *
   * @param place.site Number of the site. 0 to 2^32 − 1
   * @param place.day Number of the day; 0 for what does not change from day to day. 0 to 2^32 − 1
   * @throws EngineError OUT_OF_DOMAIN for a site or a day outside its range.
   */
  start(purpose: StreamPurpose, place: { readonly site: number; readonly day: number }): this {
    const { site, day } = place;
    requireInRange("site", site, 0, MAX_WORD);
    requireInRange("day", day, 0, MAX_WORD);
    this.#counter[0] = 0;
    this.#counter[1] = day;
    this.#counter[2] = site;
    this.#counter[3] = STREAM_PURPOSES[purpose];
    this.#used = 4;
    return this;
  }

  /** The next unsigned 32-bit word. */
  word(): number {
    if (this.#used === 4) {
      philox4x32(this.#counter, this.#key, this.#block);
      this.#counter[0] = (this.#counter[0] as number) + 1;
      this.#used = 0;
    }
    return this.#block[this.#used++] as number;
  }

  /** The next number between 0 and 1, neither of which it ever is; in steps of 2^−32. */
  uniform(): number {
    return (this.word() + 0.5) * TO_UNIT;
  }
}
