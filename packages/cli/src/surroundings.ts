/** All that the command line touches of the world, so that tests can stand in for it. */
export interface Surroundings {
  readonly out: (text: string) => void;
  readonly err: (text: string) => void;
  /** True when output goes to a terminal that wants colour. */
  readonly isColourful: boolean;
  readonly readText: (path: string) => Promise<string>;
  /** Size of a file in bytes. Rejects like `readText` when it cannot be had. */
  readonly sizeOf: (path: string) => Promise<number>;
  /** True when two names lead to one file that is there, through links or otherwise. */
  readonly isSameFile: (path: string, other: string) => Promise<boolean>;
  /** Writes a new file; rejects with code EEXIST when one is there and `overwrite` is false. */
  readonly writeText: (path: string, text: string, overwrite: boolean) => Promise<void>;
  /** Today as an ISO date, local. */
  readonly today: () => string;
  /** Serves one page on the loopback address until the process is stopped; resolves with its address. */
  readonly serve: (page: string) => Promise<string>;
}
