import { describe, expect, it } from "vitest";
import { known, NOT_RECORDED } from "../job/index.ts";
import { EXAMPLES, example } from "../testing/examples.ts";
import { changed } from "../testing/findings.ts";
import { opened } from "../testing/sketch.ts";
import { orderOfWork } from "./order-of-work.ts";
import { isReady } from "./work-step.ts";

const ids = (changes: Record<string, unknown> = {}) =>
  orderOfWork(opened(changed(changes))).map(({ id }) => id);
const before = (order: readonly string[], first: string, second: string) => {
  expect(order).toContain(first);
  expect(order).toContain(second);
  expect(order.indexOf(first)).toBeLessThan(order.indexOf(second));
};

describe(orderOfWork, () => {
  const order = ids();

  it.each([
    ["permission", "isolate"],
    ["isolate", "prove-dead"],
    ["prove-dead", "circuit-car"],
    ["secondary-ct1", "close-ct1"],
    ["bus", "energise"],
    ["dead-tests", "energise"],
    ["energise", "live-tests"],
    ["settings", "first-charge"],
    ["read-idle", "first-charge"],
    ["first-charge", "failures"],
    ["failures", "lock"],
  ])("does %s before %s", (first, second) => {
    before(ids({ bus: example("terraced-house").document.bus }), first, second);
  });

  it("has every step once, each with something to do and something it leaves", () => {
    expect(new Set(order).size).toBe(order.length);
    for (const step of orderOfWork(opened(changed({})))) {
      expect(step.does.length).toBeGreaterThan(0);
      expect(step.leaves).not.toBe("");
    }
  });

  it("terminates each current secondary before its core closes, in every example", () => {
    for (const name of EXAMPLES) {
      const { job, tree } = example(name);
      const steps = orderOfWork({ job, tree }).map(({ id }) => id);
      for (const { id } of job.metering?.currentTransformers ?? [])
        before(steps, `secondary-${id}`, `close-${id}`);
    }
  });

  it("warns of the open secondary of a current output, and of nothing else", () => {
    const hold = (output: string) =>
      orderOfWork(opened(changed({ "metering.currentTransformers[ct1].output": known(output) }))).find(
        ({ id }) => id === "secondary-ct1",
      )?.hold;
    expect(hold("5-A")).toContain("open secondary");
    expect(hold("1-A")).toContain("open secondary");
    expect(hold("milliampere")).toContain("open secondary");
    expect(hold("voltage")).toBeNull();
  });

  it("claims nothing that only eyes on site can see", () => {
    const end = "metering.currentTransformers[ct1].secondaryEnd";
    const steps = orderOfWork(opened(changed({ [end]: NOT_RECORDED })));
    const needOf = (id: string, words: string) =>
      steps.find((step) => step.id === id)?.needs.find((need) => need.words.includes(words))?.state;
    expect(needOf("close-ct1", "secondary of ct1")).toBe("on-site");
    expect(needOf("circuit-car", "proved dead")).toBe("on-site");
    expect(needOf("energise", "tests with the circuit dead")).toBe("on-site");
  });

  it("waits while a secondary is known to be open, and goes on when it is at the meter", () => {
    const closing = (end: string) =>
      orderOfWork(opened(changed({ "metering.currentTransformers[ct1].secondaryEnd": known(end) })))
        .find(({ id }) => id === "close-ct1")
        ?.needs.find(({ words }) => words.includes("secondary of ct1"))?.state;
    expect([closing("open"), closing("shorted"), closing("meter")]).toEqual(["broken", "met", "met"]);
  });

  it("names the fact that a waiting step lacks", () => {
    const [permission] = orderOfWork(opened(changed({ "work.needsFuseWithdrawal": known(true) })));
    expect(permission && isReady(permission)).toBe(false);
    expect(permission?.needs.find(({ state }) => state === "unknown")?.path).toBe("supply.operator.answer");
    expect(permission?.needs.map(({ path }) => path)).toContain("supply.operator.allowsFuseWithdrawal");
  });

  it("says that a transformer stands upstream of every switch", () => {
    const isolate = orderOfWork(opened(changed({}))).find(({ id }) => id === "isolate");
    expect(isolate?.does.join(" ")).toContain("ct1: upstream of that switch the conductor stays live");
  });

  it("stops at signs of unfit equipment", () => {
    const [permission] = orderOfWork(opened(changed({ "supply.serviceConcerns": known(["overheating"]) })));
    expect(permission?.needs[0]?.state).toBe("broken");
  });
});
