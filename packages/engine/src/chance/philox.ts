const MULTIPLIER_0 = 0xd2511f53;
const MULTIPLIER_1 = 0xcd9e8d57;
const WEYL_0 = 0x9e3779b9;
const WEYL_1 = 0xbb67ae85;
const ROUNDS = 10;

/** Upper half of the 64-bit product of two unsigned 32-bit numbers. */
function upperHalf(a: number, b: number): number {
  const aLow = a & 0xffff;
  const aHigh = a >>> 16;
  const bLow = b & 0xffff;
  const bHigh = b >>> 16;
  const lowLow = Math.imul(aLow, bLow) >>> 0;
  const lowHigh = Math.imul(aLow, bHigh) >>> 0;
  const highLow = Math.imul(aHigh, bLow) >>> 0;
  const middle = (lowLow >>> 16) + (lowHigh & 0xffff) + (highLow & 0xffff);
  return (Math.imul(aHigh, bHigh) + (lowHigh >>> 16) + (highLow >>> 16) + (middle >>> 16)) | 0;
}

/**
 * Philox 4×32 with ten rounds: four random words for a counter of four words under a key of two.
 *
 * For one key it is a bijection, so different counters never give the same four words. There is no
 * state: a word depends on its counter and its key and on nothing that was drawn before.
 *
 * @param counter Four unsigned 32-bit words.
 * @param key Two unsigned 32-bit words.
 * @param into Where the four words go. May be the counter itself.
 *
 * Source: Salmon, Moraes, Dror and Shaw, "Parallel random numbers: as easy as 1, 2, 3", SC11, 2011,
 * section 3.3; the known answers published with it are the test.
 */
export function philox4x32(counter: Uint32Array, key: Uint32Array, into: Uint32Array): void {
  let c0 = (counter[0] as number) | 0;
  let c1 = (counter[1] as number) | 0;
  let c2 = (counter[2] as number) | 0;
  let c3 = (counter[3] as number) | 0;
  let k0 = (key[0] as number) | 0;
  let k1 = (key[1] as number) | 0;
  for (let round = 0; round < ROUNDS; round++) {
    const high0 = upperHalf(MULTIPLIER_0, c0);
    const high1 = upperHalf(MULTIPLIER_1, c2);
    const low0 = Math.imul(MULTIPLIER_0, c0);
    const low1 = Math.imul(MULTIPLIER_1, c2);
    c0 = high1 ^ c1 ^ k0;
    c1 = low1;
    c2 = high0 ^ c3 ^ k1;
    c3 = low0;
    k0 = (k0 + WEYL_0) | 0;
    k1 = (k1 + WEYL_1) | 0;
  }
  into[0] = c0;
  into[1] = c1;
  into[2] = c2;
  into[3] = c3;
}
