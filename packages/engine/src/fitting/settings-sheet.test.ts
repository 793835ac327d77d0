import { describe, expect, it } from "vitest";
import { known } from "../job/index.ts";
import { example } from "../testing/examples.ts";
import { changed } from "../testing/findings.ts";
import { plain } from "../testing/plain.ts";
import { opened } from "../testing/sketch.ts";
import { settingsSheet } from "./settings-sheet.ts";

const worked = { limit: plain("Ilim", 57.66, "A"), margin: plain("m", 2.34, "A"), fallback: null };
const sheet = (changes: Record<string, unknown> = {}) =>
  settingsSheet(opened(changed({ bus: example("terraced-house").document.bus, ...changes })), worked);
const setTo = (setting: string, changes: Record<string, unknown> = {}) =>
  sheet(changes).find((row) => row.setting.startsWith(setting))?.value;

describe(settingsSheet, () => {
  it("gives the ratio both ways", () => {
    expect(setTo("ratio, where the meter wants one number")).toBe("20");
    expect(setTo("ratio, where it wants both")).toBe("100 A / 5 A");
    expect(
      setTo("ratio, where it wants both", { "metering.currentTransformers[ct1].primaryTurns": known(2) }),
    ).toBe("50 A / 5 A");
  });

  it("asks for the rated primary where the output is no current", () => {
    expect(setTo("rated primary", { "metering.currentTransformers[ct1].output": known("voltage") })).toBe(
      "100 A",
    );
  });

  it("rounds the limit down, never up", () => expect(setTo("limit")).toBe("57.6 A"));

  it("falls back on the defaults of the serial line", () => {
    expect(setTo("speed")).toBe("19200 Bd");
    expect(setTo("parity")).toBe("even, one stop bit");
    expect(setTo("address")).toBeNull();
  });

  it("leaves open what is not known, with a reason all the same", () => {
    for (const { value, reason } of sheet()) {
      expect(reason).not.toBe("");
      expect(value).not.toBe("");
    }
    expect(setTo("fallback")).toBeNull();
  });

  it("gives the fallback in whole amperes, and keeps a recorded one that is no higher", () => {
    const row = (recordedA: number) =>
      settingsSheet(opened(changed({ "limiter.fallbackA": known(recordedA) })), {
        ...worked,
        fallback: plain("Ifb", 22.3, "A"),
      }).find(({ setting }) => setting.startsWith("fallback"));
    expect(row(22)).toMatchObject({
      value: "22 A",
      reason: expect.stringContaining("22 A each is recorded and is no more: keep it"),
    });
    expect(row(23)?.reason).toContain("23 A each is recorded and is more: lower it");
  });

  it("adds up only the charge points that share a line", () => {
    const hall = example("village-hall");
    const { limiter } = hall.document;
    const row = (recordedA: number) =>
      settingsSheet(
        opened({ ...hall.document, limiter: limiter && { ...limiter, fallbackA: known(recordedA) } }),
        { ...worked, fallback: plain("Ifb", 21.5, "A") },
      ).find(({ setting }) => setting.startsWith("fallback"));
    // Point A hangs on one line, point B on all three: two on that one.
    expect(row(10)?.reason).toContain("10 A each is recorded and is no more");
    expect(row(11)?.reason).toContain("11 A each is recorded and is more");
  });

  it("has nothing to set where nothing is planned", () => {
    expect(sheet({ metering: null, limiter: null, bus: null })).toEqual([]);
  });
});
