import { existsSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { readCleanSeries } from "@underfuse/intake";
import { describe, expect, it } from "vitest";
import { atTerminal, emptyFolder } from "./testing/at-terminal.ts";

const HOUSE = fileURLToPath(new URL("../../../examples/terraced-house/demand.csv", import.meta.url));
const STATED = [
  "--value",
  "Global_intensity",
  "--unit",
  "A",
  "--labels",
  "start",
  "--clock",
  "local",
  "--zone",
  "Europe/Paris",
];

const written = (text: string): string => {
  const path = join(emptyFolder(), "recording.csv");
  writeFileSync(path, text);
  return path;
};

describe("underfuse import", () => {
  it("asks for what the file does not tell, each with the option that answers it", async () => {
    const { status, out } = await atTerminal(["import", HOUSE]);
    expect(status).toBe(2);
    expect(out).toContain("--value Global_intensity");
    expect(out).toContain("--unit A   mean current of the interval");
    expect(out).toContain("--labels end");
  });
  it.each([
    ["I1,I2,I3,In", "--value I1 I2 I3 where they are L1, L2 and L3, in this order"],
    ["Amps 1,Amps 2,Amps 3,Amps N", "--value 'Amps 1' 'Amps 2' 'Amps 3' where they are"],
    ["red,yellow,blue,neutral", "--value FIRST SECOND THIRD where they are"],
  ])("says how to name three columns of %s, and takes them", async (headings, words) => {
    const path = written(`Date,Time,${headings}\n2026-03-01,00:00,1,2,3,0\n2026-03-01,00:01,1,2,3,0\n`);
    const stated = ["--labels", "start", "--clock", "utc", "--unit", "A"];
    const { out } = await atTerminal(["import", path, ...stated]);
    expect(out.replace(/\s+/g, " ")).toContain(words);
    const three = await atTerminal([
      "import",
      path,
      ...stated,
      "--value",
      ...headings.split(",").slice(0, 3),
    ]);
    expect(three.out).toContain("line      L3");
  });
  it("names no three where there are two", async () => {
    const path = written("Date,Time,day,night\n2026-03-01,00:00,1,2\n2026-03-01,00:30,1,2\n");
    expect((await atTerminal(["import", path])).out).not.toContain("L1, L2 and L3");
  });
  it("says what it concluded, why, and what the recording holds", async () => {
    const { status, out } = await atTerminal(["import", HOUSE, ...STATED]);
    expect(status).toBe(0);
    expect(out).toContain("line 2: 16/12/2006 has no other reading");
    expect(out).toContain("from      2006-12-16 16:24 UTC");
    expect(out).toContain("coverage  99.98 %: 21992 recorded, 4 absent");
    expect(out).toContain("greatest  39.40 A");
  });
  it("writes the clean form, which reads back, and never over another file", async () => {
    const out = join(emptyFolder(), "clean.csv");
    expect(await atTerminal(["import", HOUSE, ...STATED, "--csv", out])).toMatchObject({ status: 0 });
    const clean = readCleanSeries(readFileSync(out, "utf8"));
    if (!clean.ok) throw new Error(clean.problem.message);
    expect(clean.series).toMatchObject({ startMs: Date.parse("2006-12-16T16:24:00Z"), stepS: 60, unit: "A" });
    expect(clean.series.channels[0]?.values.length).toBe(21_996);
    expect(await atTerminal(["import", HOUSE, ...STATED, "--csv", out])).toMatchObject({
      status: 64,
      err: expect.stringContaining("is there already and is left as it is"),
    });
    expect(await atTerminal(["import", HOUSE, ...STATED, "--csv", HOUSE])).toMatchObject({ status: 64 });
  });
  it("refuses with line, column, what stood there and a cure", async () => {
    const path = written("Date,Time,kWh\n2026-03-01,00:00,0.2\n2026-03-01,00:30,x\n");
    const { status, out } = await atTerminal(["import", path, "--labels", "start"]);
    expect(status).toBe(64);
    expect(out).toContain("line 3, column 3");
    expect(out).toContain("found: x");
    expect(out).toContain("[VALUE_UNREADABLE]");
  });
  it("gives the same as plain data", async () => {
    const { out } = await atTerminal(["import", HOUSE, ...STATED, "--json"]);
    expect(JSON.parse(out)).toMatchObject({
      state: "series",
      series: { startUtc: "2006-12-16T16:24:00.000Z", channels: [{ coverage: { absentCount: 4 } }] },
    });
  });
  it("turns energy into current only by what is stated", async () => {
    const path = written(
      "Date,Time,kWh\n2026-01-01,00:00,1.15\n2026-01-01,00:30,2.3\n2026-01-01,01:00,1.15\n",
    );
    const clean = join(emptyFolder(), "clean.csv");
    const words = ["import", path, "--labels", "start", "--csv", clean, "--amperes"];
    expect(await atTerminal(words)).toMatchObject({ status: 64, err: expect.stringContaining("--voltage") });
    await atTerminal([...words, "--voltage", "230", "--power-factor", "1", "--lines", "1"]);
    const read = readCleanSeries(readFileSync(clean, "utf8"));
    expect(read).toMatchObject({ ok: true, series: { unit: "A" } });
    // 1.15 kWh in half an hour is 2300 W, 10 A at 230 V.
    expect(read.ok && [...(read.series.channels[0]?.values ?? [])]).toEqual([10, 20, 10]);
  });
  it.each([
    [["--voltage", "230"], "Add --amperes"],
    [["--power-factor", "1"], "Add --amperes"],
    [["--lines", "1"], "Add --amperes with --voltage"],
  ])("refuses %j where no current is asked for, and writes nothing", async (words, cure) => {
    const path = written(
      "Date,Time,kWh\n2026-01-01,00:00,1.15\n2026-01-01,00:30,2.3\n2026-01-01,01:00,1.15\n",
    );
    const clean = join(emptyFolder(), "clean.csv");
    const ran = await atTerminal(["import", path, "--labels", "start", "--csv", clean, ...words]);
    expect(ran).toMatchObject({ status: 64, err: expect.stringContaining(cure) });
    expect(existsSync(clean)).toBe(false);
  });
  it("says where the minute behind a greatest mean may lie, in power, current and data", async () => {
    const path = written(
      "Date,Time,kWh\n2026-01-01,00:00,1.15\n2026-01-01,00:30,2.3\n2026-01-01,01:00,1.15\n",
    );
    const by = ["--amperes", "--voltage", "230", "--power-factor", "1", "--lines", "3"];
    const words = ["import", path, "--labels", "start"];
    const { out } = await atTerminal([...words, ...by]);
    // 4.6 kW shared by three lines are 6.67 A; half-hours: 1.32 to 2.28 times as much.
    expect(out).toContain("greatest  4.600 kW, 6.67 A, mean of the 1800 s");
    expect(out.replace(/\s+/g, " ")).toContain(
      "minute 6.072 kW to 10.488 kW, 8.80 A to 15.20 A may stand behind that mean for a minute: 1.32 to 2.28 times as much (highest minute of a day over its highest mean",
    );
    expect((await atTerminal(words)).out).not.toContain(" A,");
    const [channel] = JSON.parse((await atTerminal([...words, ...by, "--json"])).out).series.channels;
    expect(channel).toMatchObject({
      minuteBehind: { low: expect.closeTo(6072, 6), unit: "W", ratios: { low: 1.32, high: 2.28 } },
      amperes: { onLines: 3, minuteBehind: { high: expect.closeTo(15.2, 9), unit: "A" } },
    });
  });
  it("says plainly that peaks inside the interval are not shown where no band can be given", async () => {
    const { out } = await atTerminal(["import", HOUSE, ...STATED]);
    expect(out).toContain("minute    peaks inside the interval are not shown");
  });
  it("calls the greatest of maxima a peak, gives no energy of it, and looks for no minute behind it", async () => {
    const path = written(
      ["date,time,Peak kW", ...[1, 4, 2].map((value, at) => `2026-01-13,${10 + at}:00,${value}`)].join("\n"),
    );
    const { status, out } = await atTerminal(["import", path, "--labels", "start"]);
    expect(status).toBe(0);
    expect(out).toContain("greatest  4.000 kW, a peak and not the mean of the 3600 s from");
    expect(out).not.toMatch(/^(energy|minute) /m);
    const { out: json } = await atTerminal(["import", path, "--labels", "start", "--json"]);
    expect(JSON.parse(json).series.channels[0]).toMatchObject({
      energyKwh: null,
      greatestMean: null,
      greatestMaximum: { value: 4000, unit: "W" },
      minuteBehind: null,
    });
  });
  it("shows how far it is on a terminal, and stops when asked, with nothing written", async () => {
    const out = join(emptyFolder(), "clean.csv");
    let messages = "";
    const stopped = await atTerminal(["import", HOUSE, ...STATED, "--csv", out], {
      isErrTerminal: true,
      err: (text) => {
        messages += text;
      },
      onStop: (stop) => {
        queueMicrotask(stop);
        return () => undefined;
      },
    });
    expect(stopped.status).toBe(130);
    expect(messages).toContain("Stopped before the file was read. Nothing was written.");
    expect(existsSync(out)).toBe(false);
    await atTerminal(["import", HOUSE, ...STATED], {
      isErrTerminal: true,
      err: (text) => {
        messages += text;
      },
    });
    expect(messages).toMatch(/Reading \[=+ *\] +\d+ %/);
  });
  it.each([
    ["a file that is not there", "nowhere.csv", /there is no such file/],
    ["a folder", emptyFolder(), /that is a folder/],
  ])("refuses %s", async (_what, path, message) => {
    expect(await atTerminal(["import", path])).toMatchObject({
      status: 64,
      err: expect.stringMatching(message),
    });
  });
});
