import { describe, expect, it } from "vitest";
import { machine, wantsColour } from "./machine.ts";

describe("wantsColour", () => {
  it.each([
    [true, {}, true],
    [true, { NO_COLOR: "" }, true],
    [true, { NO_COLOR: "1" }, false],
    [true, { TERM: "dumb" }, false],
    [undefined, {}, false],
  ])("on a terminal: %s, with %j: %s", (isTerminal, environment, wanted) => {
    expect(wantsColour(isTerminal, environment)).toBe(wanted);
  });
});

describe("machine", () => {
  it("serves one page on the loopback address, and nothing else", async () => {
    const address = await machine.serve("<p>page</p>");
    expect(address).toMatch(/^http:\/\/127\.0\.0\.1:\d+\/$/);
    expect(await (await fetch(address)).text()).toBe("<p>page</p>");
    expect((await fetch(`${address}other`)).status).toBe(404);
  });
  it("gives today as a date", () => {
    expect(machine.today()).toMatch(/^\d{4}-\d{2}-\d{2}$/);
  });
});
