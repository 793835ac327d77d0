import { existsSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { atTerminal, emptyFolder, exampleJob } from "./testing/at-terminal.ts";

const hall = exampleJob("village-hall");
const mapPath = hall.replace("job.json", "register-map.json");
const dumpPath = hall.replace("job.json", "registers.csv");
const dumpText = readFileSync(dumpPath, "utf8");
const file = (text: string, name = "registers.csv"): string => {
  const path = join(emptyFolder(), name);
  writeFileSync(path, text);
  return path;
};
const inOneLine = (text: string): string => text.replace(/\s+/g, " ");

describe("decode", () => {
  it("shows each number with its registers, and the word order with its reason", async () => {
    const { status, out } = await atTerminal(["decode", mapPath, dumpPath]);
    expect(out).toMatch(/✓ {2}V L1 +256 +0x0941 0x0000 +236\.9 V\n/);
    expect(out).toMatch(/✓ {2}P L2 +286 +0xe570 0xffff +-680 W\n/);
    expect(out).toContain("Word order: CDAB, told by the registers");
    expect(inOneLine(out)).toContain("L3: Too little load: 379.7 VA.");
    expect(status).toBe(2);
  });
  it("takes the two files in either order", async () => {
    const [one, other] = await Promise.all(
      [
        [mapPath, dumpPath],
        [dumpPath, mapPath],
      ].map((files) => atTerminal(["decode", ...files])),
    );
    expect(one?.out).toBe(other?.out);
  });
  it("takes decimal values, and hexadecimal ones without 0x in a column headed so", async () => {
    const rows = dumpText.trim().split("\n").slice(1);
    const cells = rows.map((row) => row.split(","));
    const decimal = file(`Address;Value\n${cells.map(([at, value]) => `${at};${Number(value)}`).join("\n")}`);
    const hexadecimal = file(
      `address (hex)\tvalue (hex)\n${cells.map(([at, value]) => `${Number(at).toString(16)}\t${value?.slice(2)}`).join("\n")}`,
    );
    const json = file(
      JSON.stringify({
        format: "underfuse-registers",
        formatVersion: 1,
        blocks: cells.map(([at, value]) => ({ from: Number(at), values: [value] })),
      }),
      "registers.json",
    );
    const { out: wanted } = await atTerminal(["decode", mapPath, dumpPath]);
    for (const path of [decimal, hexadecimal, json])
      expect((await atTerminal(["decode", mapPath, path])).out).toBe(wanted);
  });
  it("moves addresses only when told to", async () => {
    const [head = "", ...rows] = dumpText.trim().split("\n");
    const late = file(
      [head, ...rows.map((row) => row.replace(/^\d+/, (at) => `${Number(at) + 1}`))].join("\n"),
    );
    const before = await atTerminal(["decode", mapPath, late]);
    expect(inOneLine(before.out)).toContain("Give --shift -1 to read them so.");
    const after = await atTerminal(["decode", mapPath, late, "--shift", "-1"]);
    expect(after.out).toMatch(/✓ {2}V L1 +256 +0x0941 0x0000 +236\.9 V\n/);
    expect(after.out).toContain("-1 was added to every address");
  });
  it("ends with 1 where a number cannot be right", async () => {
    const { status, out } = await atTerminal(["decode", mapPath, file(dumpText.replace("0x03E4", "0x03E9"))]);
    expect(status).toBe(2); // 1.001 is rounding
    expect(out).toContain("PF L1");
    const wrong = await atTerminal(["decode", mapPath, file(dumpText.replace("0x03E4", "0x0514"))]);
    expect(wrong.status).toBe(1);
    expect(wrong.out).toContain("A power factor lies between −1 and 1.");
  });
  it("gives other programs everything", async () => {
    const { out } = await atTerminal(["decode", mapPath, dumpPath, "--json"]);
    const { tables, cannotTell } = JSON.parse(out);
    expect(tables[0].rows[0]).toEqual({
      quantity: "V",
      channel: "L1",
      value: 236.9,
      unit: "V",
      sign: "none",
      address: 256,
      registers: [0x0941, 0],
      plausible: "yes",
      why: "",
    });
    expect(tables[0].order).toMatchObject({ state: "told", order: "CDAB" });
    expect(cannotTell.length).toBeGreaterThan(0);
  });

  it("writes readings step by step, which diagnose takes", async () => {
    const path = join(emptyFolder(), "readings.json");
    const first = await atTerminal(["decode", mapPath, dumpPath, "--readings", path, "--step", "idle"]);
    expect(inOneLine(first.out)).toContain("the car draws nothing (--car says otherwise)");
    expect(first.out).toContain("Not in it: f total");
    await atTerminal([
      "decode",
      mapPath,
      dumpPath,
      "--readings",
      path,
      "--step",
      "car",
      "--car",
      "16",
      "--load",
      "2000",
      "--load-line",
      "l2",
    ]);
    const { steps } = JSON.parse(readFileSync(path, "utf8"));
    expect(steps[0].meter.L2).toEqual({
      volts: 239.6,
      amps: 2.9,
      watts: -680,
      vars: -165,
      powerFactor: -0.979,
    });
    expect(steps[1]).toMatchObject({
      id: "car",
      chargePoint: { offeredA: 16, lines: ["L1"] },
      loads: [{ line: "L2", watts: 2000 }],
    });
    expect((await atTerminal(["diagnose", hall, path])).status).not.toBe(64);
    const again = await atTerminal(["decode", mapPath, dumpPath, "--readings", path, "--step", "car"]);
    expect([again.status, again.err.includes("left as it is")]).toEqual([64, true]);
    expect(JSON.parse(readFileSync(path, "utf8")).steps).toHaveLength(2);
  });
  it("leaves a number that cannot be right out of the readings, and says so", async () => {
    const path = join(emptyFolder(), "readings.json");
    const wrong = file(dumpText.replace("0x03E4", "0x0514"));
    const { out } = await atTerminal(["decode", mapPath, wrong, "--readings", path]);
    expect(out).toContain("Not in it: PF L1: A power factor lies between");
    expect(JSON.parse(readFileSync(path, "utf8")).steps[0].meter.L1.powerFactor).toBeUndefined();
  });
  it("adds nothing to a file that is no readings", async () => {
    const job = file(readFileSync(hall, "utf8"), "job.json");
    const { status, err } = await atTerminal(["decode", mapPath, dumpPath, "--readings", job]);
    expect([status, err.includes("NOT_READINGS")]).toEqual([64, true]);
    expect(readFileSync(job, "utf8")).toBe(readFileSync(hall, "utf8"));
  });

  it.each([
    ["a value that is none", "address,value\n1,n/a\n", 'line 2, value: "n/a" is no register'],
    ["hexadecimal without 0x", "address,value\n1,43A0\n", "hexadecimal with 0x in front"],
    ["a value beyond 16 bits", "address,value\n1,65536\n", 'line 2, value: "65536"'],
    ["a decoded value", "address,value\n1,230.5\n", "before any scale"],
    ["an address of six digits", "address,value\n400001,1\n", 'line 2, address: "400001" is none'],
    ["no address", "address,value\n,1\n", 'line 2, address: "" is none'],
    ["a heading nobody knows", "register,value\n1,1\n", 'column 1, "register", is not known'],
    ["no heading of values", "address\n1\n", "no column of the value"],
    ["values side by side", "address,value\n1,2,3\n", "line 2 has more cells than there are headings"],
    ["no row", "address,value\n", "no register under its headings"],
    ["nothing", "", "no column of the address"],
    ["two values at one address", "address,value\n1,2\n1,3\n", "REGISTER_TWICE"],
    ["a job", readFileSync(hall, "utf8"), "This is not a file of registers"],
    ["control characters", "address,value\n1,\u001b[2J\n", "\\u001b"],
  ])("refuses %s in words, with 64", async (_what, text, message) => {
    const { status, err, out } = await atTerminal(["decode", file(text)]);
    expect(inOneLine(err)).toContain(message);
    expect([status, out]).toEqual([64, ""]);
  });
  it("an address without a value is not read, never zero", async () => {
    const { out } = await atTerminal(["decode", mapPath, file(dumpText.replace("256,0x0941", "256,"))]);
    expect(out).toContain("–  V L1: not read; register 256 is missing.");
    expect(inOneLine(out)).toContain("1 address has no value, first at line 2");
  });
  it.each([
    ["a map alone", [mapPath], "is a register map. Give the registers"],
    ["two maps", [mapPath, mapPath], "Both files are register maps"],
    ["two dumps", [dumpPath, dumpPath], "Neither file is a register map"],
    ["three files", [mapPath, dumpPath, dumpPath], "3 files were given"],
    ["a broken map", [file('{"format": "underfuse-register-map"}', "map.json"), dumpPath], "formatVersion"],
    ["a file that is not there", [mapPath, "/nowhere.csv"], "there is no such file"],
  ])("refuses %s", async (_what, files, message) => {
    const { status, err } = await atTerminal(["decode", ...files]);
    expect([status, inOneLine(err).includes(message)]).toEqual([64, true]);
  });
  it("whatever the table, refuses in words or decodes", async () => {
    const cell = fc.oneof(fc.integer({ min: -70_000, max: 70_000 }).map(String), fc.string({ maxLength: 6 }));
    await fc.assert(
      fc.asyncProperty(fc.array(fc.tuple(cell, cell), { maxLength: 20 }), async (rows) => {
        const text = `address,value\n${rows.map((row) => row.join(",")).join("\n")}`;
        const { status, err, out } = await atTerminal(["decode", "map", "dump"], {
          readText: async (path) => (path === "map" ? readFileSync(mapPath, "utf8") : text),
          sizeOf: async () => text.length,
        });
        expect(err).not.toMatch(/program's fault|\n\s+at /);
        expect([1, 2, 64]).toContain(status);
        expect(status === 64 ? err : out).not.toBe("");
      }),
      { numRuns: 60 },
    );
  });
  it("writes no file when there is nothing to write", async () => {
    const path = join(emptyFolder(), "readings.json");
    const { status } = await atTerminal(["decode", file("address,value\n1,2\n"), "--readings", path]);
    expect([status, existsSync(path)]).toEqual([64, false]);
  });
});

describe("schema", () => {
  it.each([
    ["--registers", "Underfuse register map"],
    ["--dump", "Underfuse registers"],
    ["--readings", "Underfuse readings"],
  ])("%s", async (option, title) => {
    expect(JSON.parse((await atTerminal(["schema", option])).out).title).toBe(title);
  });
  it("one at a time", async () => {
    expect((await atTerminal(["schema", "--dump", "--readings"])).status).toBe(64);
  });
});
