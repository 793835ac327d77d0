import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { MAX_CHARACTERS, MAX_DEPTH, parseJsonText } from "./json-text.ts";

const problemOf = (text: string) => {
  const result = parseJsonText(text);
  if (result.ok) throw new Error(`accepted: ${text.slice(0, 80)}`);
  return result.problem;
};

describe("parseJsonText", () => {
  it.each([
    ["a missing comma", '{"a": 1\n "b": 2}', "JSON_SYNTAX", "line 2, column 2"],
    ["an unfinished file", '{"a": [1, 2', "JSON_SYNTAX", "line 1, column 12"],
    ["an unclosed string", '{"a": "sixty\n}', "JSON_SYNTAX", "line 1, column 13"],
    ["a number as spreadsheets write it", '{"a": 0,71}', "JSON_SYNTAX", "line 1, column 9"],
    ["NaN", '{"a": NaN}', "JSON_SYNTAX", "line 1, column 7"],
    ["a leading zero", '{"a": 07}', "JSON_SYNTAX", "line 1, column 8"],
    ["a bad escape", '{"a": "\\x"}', "JSON_SYNTAX", "line 1, column 8"],
    ["nothing at all", "", "JSON_SYNTAX", "line 1, column 1"],
    ["text after the end", "{} {}", "JSON_SYNTAX", "line 1, column 4"],
    ["one key twice", '{"ratingA": 60,\n "ratingA": 80}', "JSON_DUPLICATE_KEY", "line 2, column 2"],
    ["one key twice, once escaped", '{"a": 1, "\\u0061": 2}', "JSON_DUPLICATE_KEY", "line 1, column 10"],
    ["a prototype key", '{"__proto__": {"polluted": true}}', "JSON_FORBIDDEN_KEY", "line 1, column 2"],
    ["an escaped prototype key", '{"\\u005f_proto__": 1}', "JSON_FORBIDDEN_KEY", "line 1, column 2"],
    ["a depth bomb", "[".repeat(100_000), "JSON_TOO_DEEP", `line 1, column ${MAX_DEPTH + 1}`],
  ])("refuses %s and says where", (_what, text, code, path) => {
    expect(problemOf(text)).toMatchObject({ code, path });
  });

  it("refuses a file far larger than any job before reading it", () => {
    expect(problemOf(" ".repeat(MAX_CHARACTERS + 1))).toMatchObject({ code: "TEXT_TOO_LARGE" });
  });

  it("reads a string of many megabytes, escapes and all", () => {
    const long = JSON.stringify(`${"\\n\n".repeat(3_000_000)}end`);
    expect(parseJsonText(long)).toEqual({ ok: true, value: JSON.parse(long) });
  });

  it("reads past a byte order mark", () => {
    expect(parseJsonText('\ufeff{"a": 1}')).toEqual({ ok: true, value: { a: 1 } });
  });

  it("accepts whatever the platform writes, unchanged", () => {
    const ownKeysOnly = fc
      .jsonValue({ maxDepth: 6 })
      .filter((value) => !/"(__proto__|constructor|prototype)":/.test(JSON.stringify(value)));
    fc.assert(
      fc.property(ownKeysOnly, fc.integer({ min: 0, max: 3 }), (value, indent) => {
        const text = JSON.stringify(value, null, indent);
        expect(parseJsonText(text)).toEqual({ ok: true, value: JSON.parse(text) });
      }),
    );
  });

  it("accepts a damaged text only where the platform's own parser does", () => {
    const damaged = fc
      .tuple(
        fc.jsonValue({ maxDepth: 3 }),
        fc.nat(),
        fc.constantFrom("", ",", '"', "{", "]", "0", "\\", " ", "\n", "e", "-"),
      )
      .map(([value, place, splinter]) => {
        const text = JSON.stringify(value);
        const at = place % (text.length + 1);
        return text.slice(0, at) + splinter + text.slice(at + 1);
      });
    fc.assert(
      fc.property(damaged, (text) => {
        const ours = parseJsonText(text);
        let platform: { value: unknown } | undefined;
        try {
          platform = { value: JSON.parse(text) };
        } catch {}
        if (ours.ok) expect(platform).toEqual({ value: ours.value });
        else if (platform) expect(ours.problem.code).not.toBe("JSON_SYNTAX");
      }),
      { numRuns: 2000 },
    );
  });
});
