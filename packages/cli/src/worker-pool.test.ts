import { describe, expect, it } from "vitest";
import { doPieces, type Work } from "./worker-pool.ts";

const squares: Work<{ readonly add: number }, number, number> = {
  name: "squares",
  prepare:
    ({ add }) =>
    (piece) => {
      if (piece < 0) throw new Error("a piece below zero");
      return piece * piece + add;
    },
};
const here = { workerFile: null };

async function done(pieces: readonly number[], stopAfter = Number.POSITIVE_INFINITY) {
  const stopping = new AbortController();
  const results: number[] = [];
  await doPieces(
    squares,
    {
      shared: { add: 1 },
      pieces,
      threads: 4,
      stop: stopping.signal,
      onResult: (result) => {
        results.push(result);
        if (results.length === stopAfter) stopping.abort();
      },
    },
    here,
  );
  return results;
}

// With threads the same is tried in scripts/bundle.test.ts: a thread runs the bundle, which tests do not have.
describe("doPieces on this thread", () => {
  it("does every piece with what all share", async () => expect(await done([1, 2, 3])).toEqual([2, 5, 10]));
  it("does nothing where there is nothing", async () => expect(await done([])).toEqual([]));
  it("begins nothing more once it is stopped, and keeps what is done", async () =>
    expect(await done([1, 2, 3, 4], 2)).toEqual([2, 5]));
  it("passes on what a piece throws", async () =>
    expect(done([1, -1])).rejects.toThrow("a piece below zero"));
});
