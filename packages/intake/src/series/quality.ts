/** What is known of one interval, by its number in a quality array. */
export const QUALITIES = ["absent", "recorded", "estimated", "questionable", "left-out"] as const;
export type Quality = (typeof QUALITIES)[number];

export const ABSENT = 0;
export const RECORDED = 1;
export const ESTIMATED = 2;
export const QUESTIONABLE = 3;
/** Recorded, but not to be believed: the value is left out, and remarks say why. */
export const LEFT_OUT = 4;

/**
 * Words as exports write them. Common practice, of no published list: each stands for what most files mean by it.
 * A letter alone may mean something else in another: `s` is taken as substituted, so as estimated, which keeps the
 * value and says that it was not read off the meter.
 */
const WORDS: Readonly<Record<string, number>> = {
  "": RECORDED,
  a: RECORDED,
  act: RECORDED,
  actual: RECORDED,
  measured: RECORDED,
  metered: RECORDED,
  recorded: RECORDED,
  valid: RECORDED,
  validated: RECORDED,
  verified: RECORDED,
  good: RECORDED,
  ok: RECORDED,
  e: ESTIMATED,
  est: ESTIMATED,
  estimate: ESTIMATED,
  estimated: ESTIMATED,
  interpolated: ESTIMATED,
  substituted: ESTIMATED,
  s: ESTIMATED,
  questionable: QUESTIONABLE,
  suspect: QUESTIONABLE,
  absent: ABSENT,
  missing: ABSENT,
  "left-out": LEFT_OUT,
};

/** Quality that a word of a file stands for; null for a word that is not known. */
export function qualityOf(word: string): number | null {
  const key = word.trim().toLowerCase();
  return Object.hasOwn(WORDS, key) ? (WORDS[key] as number) : null;
}

/** True for a value that was not simply recorded. */
export const isDoubtfulQuality = (quality: number): boolean =>
  quality === ESTIMATED || quality === QUESTIONABLE;
