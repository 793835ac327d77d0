import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { dumpOf, parseRegisterDump } from "./register-dump.ts";

const document = (more: object): string =>
  JSON.stringify({ format: "underfuse-registers", formatVersion: 1, ...more });
const block = (from: number, ...values: unknown[]) => ({ blocks: [{ from, values }] });
const registersIn = (text: string) => {
  const result = parseRegisterDump(text);
  return result.ok ? [...result.dump.registers] : result.problems;
};

describe(parseRegisterDump, () => {
  it("takes decimal, hexadecimal and signed values, each at its address", () => {
    expect(registersIn(document(block(40_000, 1, "0x43A0", -1, -32_768)))).toEqual([
      [40_000, 1],
      [40_001, 0x43a0],
      [40_002, 0xffff],
      [40_003, 0x8000],
    ]);
  });
  it("says that values were shown with a sign", () => {
    const result = parseRegisterDump(document(block(0, -1)));
    expect(result.ok && result.dump.remarks).toEqual([
      "1 of the registers is negative: taken as 16 bits shown with a sign.",
    ]);
  });
  it.each([
    ["another document", JSON.stringify({ format: "underfuse-job" }), "format", '"underfuse-job"'],
    ["no JSON", "{", "line 1, column 2", "end of file"],
    ["a value beyond 16 bits", document(block(0, 65_536)), "blocks[0].values[0]", "65536"],
    ["a fraction", document(block(0, 230.5)), "blocks[0].values[0]", "230.5"],
    ["a word", document(block(0, "n/a")), "blocks[0].values[0]", '"n/a"'],
    ["an address that is none", document(block(-1, 1)), "blocks[0].from", "-1"],
    ["values over the end", document(block(65_535, 1, 2)), "blocks[0].values", "2 values from 65535"],
    ["nothing", document({ blocks: [] }), "blocks", "a list of 0"],
  ])("refuses %s with place and value", (_what, text, path, received) => {
    const result = parseRegisterDump(text);
    expect(result.ok ? [] : result.problems[0]).toMatchObject({ path, received });
  });
  it("throws nothing, whatever the text", () => {
    fc.assert(fc.property(fc.string(), (text) => void parseRegisterDump(text)));
    fc.assert(fc.property(fc.jsonValue(), (blocks) => void parseRegisterDump(document({ blocks }))));
  });
});

describe(dumpOf, () => {
  const entry = (address: number, value: number, line: number) => ({ address, value, place: `line ${line}` });

  it("takes one address with one value twice, once, and says so", () => {
    const result = dumpOf([entry(7, 1, 2), entry(7, 1, 3)], null);
    expect(result.ok && result.dump.remarks).toEqual([
      "1 of the registers stands twice with one value: taken once.",
    ]);
  });
  it("chooses nothing where one address has two values", () => {
    expect(dumpOf([entry(7, 1, 2), entry(7, 2, 3)], null)).toMatchObject({
      ok: false,
      problems: [{ code: "REGISTER_TWICE", path: "line 3", received: "2 at address 7" }],
    });
  });
  it("a signed and an unsigned way to write one register are one value", () => {
    expect(dumpOf([entry(7, -1, 2), entry(7, 0xffff, 3)], null).ok).toBe(true);
  });
});
