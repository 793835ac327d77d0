import { createReadStream } from "node:fs";
import { readFile, stat, writeFile } from "node:fs/promises";
import { availableParallelism } from "node:os";
import type { Surroundings } from "./surroundings.ts";

const pad = (part: number): string => String(part).padStart(2, "0");

/** Colour only on a terminal, and not where its owner has asked for none by NO_COLOR or a plain terminal. */
export function wantsColour(
  isTerminal: boolean | undefined,
  { NO_COLOR, TERM }: Readonly<Record<string, string | undefined>>,
): boolean {
  return isTerminal === true && !NO_COLOR && TERM !== "dumb";
}

/** Which file a name leads to; null when there is none. */
const identity = (path: string): Promise<string | null> =>
  stat(path, { bigint: true }).then(
    ({ dev, ino }) => `${dev} ${ino}`,
    () => null,
  );

/** This machine as the command line sees it. */
export const machine: Surroundings = {
  out: (text) => process.stdout.write(text),
  err: (text) => process.stderr.write(text),
  isColourful: wantsColour(process.stdout.isTTY, process.env),
  readText: (path) => readFile(path, "utf8"),
  readChunks: (path) => createReadStream(path, { highWaterMark: 1 << 18 }),
  sizeOf: async (path) => (await stat(path)).size,
  isSameFile: async (path, other) => {
    const [one, two] = await Promise.all([path, other].map((name) => identity(name)));
    return one !== null && one === two;
  },
  writeText: (path, text, overwrite) => writeFile(path, text, { flag: overwrite ? "w" : "wx" }),
  writeChunks: (path, pieces) => writeFile(path, pieces, { flag: "wx" }),
  today: () => {
    const now = new Date();
    return `${now.getFullYear()}-${pad(now.getMonth() + 1)}-${pad(now.getDate())}`;
  },
  isErrTerminal: process.stderr.isTTY === true,
  nowMs: () => performance.now(),
  // A second Ctrl-C finds nobody listening and ends the program at once.
  onStop: (stop) => {
    process.once("SIGINT", stop);
    return () => process.removeListener("SIGINT", stop);
  },
  threadCount: availableParallelism(),
  workerFile: null,
  serve: async (page) => {
    // Loaded only to serve: every other command starts sooner without it.
    const { createServer } = await import("node:http");
    return new Promise((resolve, reject) => {
      const server = createServer((request, response) => {
        const isPage = request.url === "/";
        response.writeHead(isPage ? 200 : 404, {
          "content-type": isPage ? "text/html; charset=utf-8" : "text/plain; charset=utf-8",
        });
        response.end(isPage ? page : "Not here.");
      });
      server.on("error", reject);
      server.listen(0, "127.0.0.1", () => {
        const address = server.address();
        resolve(`http://127.0.0.1:${typeof address === "object" && address !== null ? address.port : ""}/`);
      });
    });
  },
};
