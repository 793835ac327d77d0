import { describe, expect, it } from "vitest";
import { philox4x32 } from "./philox.ts";

const words = (text: string) => Uint32Array.from(text.split(" "), (word) => Number.parseInt(word, 16));
const answer = (counter: string, key: string): string => {
  const into = new Uint32Array(4);
  philox4x32(words(counter), words(key), into);
  return [...into].map((word) => word.toString(16).padStart(8, "0")).join(" ");
};

describe("philox4x32", () => {
  it.each([
    // The published known answers for ten rounds: file kat_vectors of the authors' library, Random123.
    ["00000000 00000000 00000000 00000000", "00000000 00000000", "6627e8d5 e169c58d bc57ac4c 9b00dbd8"],
    ["ffffffff ffffffff ffffffff ffffffff", "ffffffff ffffffff", "408f276d 41c83b0e a20bc7c6 6d5451fd"],
    ["243f6a88 85a308d3 13198a2e 03707344", "a4093822 299f31d0", "d16cfe09 94fdcceb 5001e420 24126ea1"],
  ])("of counter %s under key %s is %s", (counter, key, published) =>
    expect(answer(counter, key)).toBe(published),
  );
  it("may overwrite its own counter", () => {
    const counter = words("243f6a88 85a308d3 13198a2e 03707344");
    philox4x32(counter, words("a4093822 299f31d0"), counter);
    expect(counter[0]).toBe(0xd16cfe09);
  });
});
