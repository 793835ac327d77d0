import { describe, expect, it } from "vitest";
import { escapeMarkup } from "./escape.ts";

describe("escapeMarkup", () => {
  it.each([
    [`<a b="c" d='e'> & f`, "&lt;a b=&quot;c&quot; d=&#39;e&#39;&gt; &amp; f"],
    ["16 mm², 2 Ω, 😀", "16 mm², 2 Ω, 😀"],
    ["a\tb\nc", "a\tb\nc"],
    ["a\u0000b\u0008c\u001bd\ufffee", "a\ufffdb\ufffdc\ufffdd\ufffde"],
    ["half of a pair: \ud83d.", "half of a pair: \ufffd."],
  ])("%j becomes %j", (text, expected) => expect(escapeMarkup(text)).toBe(expected));
});
