/** All that the command line touches of the world, so that tests can stand in for it. */
export interface Surroundings {
  readonly out: (text: string) => void;
  readonly err: (text: string) => void;
  /** True when output goes to a terminal that wants colour. */
  readonly isColourful: boolean;
  readonly readText: (path: string) => Promise<string>;
  /** A file's bytes, chunk by chunk. Rejects like `readText` when it cannot be had. */
  readonly readChunks: (path: string) => AsyncIterable<Uint8Array>;
  /** Size of a file in bytes. Rejects like `readText` when it cannot be had. */
  readonly sizeOf: (path: string) => Promise<number>;
  /** True when two names lead to one file that is there, through links or otherwise. */
  readonly isSameFile: (path: string, other: string) => Promise<boolean>;
  /** Writes a new file; rejects with code EEXIST when one is there and `overwrite` is false. */
  readonly writeText: (path: string, text: string, overwrite: boolean) => Promise<void>;
  /** Writes a new file piece by piece; rejects with code EEXIST when one is there. */
  readonly writeChunks: (path: string, pieces: Iterable<string>) => Promise<void>;
  /** Today as an ISO date, local. */
  readonly today: () => string;
  /** Serves one page on the loopback address until the process is stopped; resolves with its address. */
  readonly serve: (page: string) => Promise<string>;
  /** True when messages go to a terminal, where a line may be written over. */
  readonly isErrTerminal: boolean;
  /** Milliseconds from some fixed moment. */
  readonly nowMs: () => number;
  /** Calls back when the person asks to stop, the first time; gives what ends the listening. */
  readonly onStop: (stop: () => void) => () => void;
  /** Threads this machine can run side by side. */
  readonly threadCount: number;
  /** The program's own file, which a thread can run; null where all work stays on one thread. */
  readonly workerFile: URL | null;
}
