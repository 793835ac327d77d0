import { describe, expect, it } from "vitest";
import { progress } from "./progress.ts";

function shown(isErrTerminal: boolean) {
  let [text, nowMs] = ["", 0];
  const world = {
    err: (more: string) => {
      text += more;
    },
    isErrTerminal,
    nowMs: () => nowMs,
  };
  const line = progress("Working", world);
  return {
    at: (ms: number, share: number) => {
      nowMs = ms;
      text = "";
      line.update(share);
      return text;
    },
    clear: () => {
      text = "";
      line.clear();
      return text;
    },
  };
}

describe("progress", () => {
  it("shows a share, a bar and, once there is a rate, the time left", () => {
    const { at } = shown(true);
    expect(at(0, 0)).toBe(`\rWorking [${" ".repeat(30)}]   0 %`);
    expect(at(2000, 0.5)).toBe(`\rWorking [${"=".repeat(15)}${" ".repeat(15)}]  50 %, 2 s left`);
    expect(at(4000, 1)).toBe(`\r${`Working [${"=".repeat(30)}] 100 %`.padEnd(56)}`);
  });
  it("says long times in minutes", () => expect(shown(true).at(10_000, 0.01)).toMatch(/, 17 min left$/));
  it("writes no more than ten times a second, and always the end", () => {
    const { at } = shown(true);
    at(0, 0.1);
    expect(at(99, 0.2)).toBe("");
    expect(at(100, 0.2)).not.toBe("");
    expect(at(101, 1)).not.toBe("");
  });
  it("leaves an empty line behind", () => {
    const { at, clear } = shown(true);
    expect(clear()).toBe("");
    const { length } = at(0, 0.3);
    expect(clear()).toBe(`\r${" ".repeat(length - 1)}\r`);
    expect(clear()).toBe("");
  });
  it("writes nothing where there is no terminal", () => {
    const { at, clear } = shown(false);
    expect(at(0, 0) + at(5000, 1) + clear()).toBe("");
  });
});
