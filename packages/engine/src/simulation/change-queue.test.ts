import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { ChangeQueue } from "./change-queue.ts";

describe("ChangeQueue", () => {
  it("says when the first change comes, and never when none waits", () => {
    const queue = new ChangeQueue(2);
    expect(queue.nextAt).toBe(Number.POSITIVE_INFINITY);
    queue.add(5, 16);
    queue.add(7, 6);
    expect(queue.nextAt).toBe(5);
    expect(queue.take()).toBe(16);
    expect(queue.nextAt).toBe(7);
    expect(queue.take()).toBe(6);
    expect(queue.nextAt).toBe(Number.POSITIVE_INFINITY);
  });
  it("forgets what waits when it is cleared, and starts anew", () => {
    const queue = new ChangeQueue(3);
    queue.add(1, 10);
    queue.add(2, 11);
    queue.clear();
    expect(queue.nextAt).toBe(Number.POSITIVE_INFINITY);
    queue.add(9, 12);
    expect(queue.nextAt).toBe(9);
    expect(queue.take()).toBe(12);
  });
  it("does what a list does, however often it goes round", () => {
    const capacity = 4;
    const operation = fc.oneof(
      { weight: 6, arbitrary: fc.constant("add" as const) },
      { weight: 5, arbitrary: fc.constant("take" as const) },
      { weight: 1, arbitrary: fc.constant("clear" as const) },
    );
    fc.assert(
      fc.property(fc.array(operation, { maxLength: 60 }), (operations) => {
        const queue = new ChangeQueue(capacity);
        let list: [step: number, value: number][] = [];
        for (const [at, what] of operations.entries()) {
          if (what === "add" && list.length < capacity) {
            queue.add(2 * at, -at);
            list.push([2 * at, -at]);
          } else if (what === "take" && list.length > 0) expect(queue.take()).toBe(list.shift()?.[1]);
          else if (what === "clear") {
            queue.clear();
            list = [];
          }
          expect(queue.nextAt).toBe(list[0]?.[0] ?? Number.POSITIVE_INFINITY);
        }
      }),
    );
  });
});
