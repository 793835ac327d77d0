import { expect, it } from "vitest";
import { doubtWords } from "./doubt-words.ts";

it.each([
  [[], []],
  [["means"], []],
  [
    ["means", "short", "misplaced"],
    [
      "Nothing about the supply passes here: less than a week was recorded; a transformer does not see all that the main fuse carries.",
    ],
  ],
] as const)("says why in one sentence, and leaves means to their own: %j", (doubts, words) =>
  expect(doubtWords(doubts)).toEqual(words),
);
