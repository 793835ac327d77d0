/**
 * Work in many equal pieces, on as many threads as there are.
 *
 * A piece is plain data, and so is what comes of it. Which thread does which piece, and in which order they end, is
 * left open: whoever puts the results together must not depend on it.
 *
 * @module
 */
import { parentPort, Worker, workerData } from "node:worker_threads";

/** A kind of work: what all pieces share is made ready once on each thread, then each piece is done by itself. */
export interface Work<Shared, Piece, Result> {
  /** By which a thread finds it. */
  readonly name: string;
  readonly prepare: (shared: Shared) => (piece: Piece) => Result;
}

export interface PoolWorld {
  /** The program's own file, which a thread can run; null where all work stays on this thread. */
  readonly workerFile: URL | null;
}

export interface Pieces<Shared, Piece, Result> {
  readonly shared: Shared;
  readonly pieces: readonly Piece[];
  readonly threads: number;
  /** Called on this thread with each result as it comes. */
  readonly onResult: (result: Result) => void;
  /** When it fires no piece is begun any more, and what is not done yet is left. */
  readonly stop: AbortSignal;
}

/**
 * Does all pieces, or those that are done when the work is stopped.
 *
 * @throws what a piece threw, after the other threads have been ended.
 */
export async function doPieces<Shared, Piece, Result>(
  work: Work<Shared, Piece, Result>,
  asked: Pieces<Shared, Piece, Result>,
  { workerFile }: PoolWorld,
): Promise<void> {
  const threads = Math.min(asked.threads, asked.pieces.length);
  if (workerFile === null || threads <= 1) await doHere(work, asked);
  else await doOnThreads(work.name, asked, { workerFile, threads });
}

async function doHere<Shared, Piece, Result>(
  work: Work<Shared, Piece, Result>,
  { shared, pieces, onResult, stop }: Pieces<Shared, Piece, Result>,
): Promise<void> {
  const piece = work.prepare(shared);
  for (const asked of pieces) {
    // A turn for whoever wants to stop it.
    await new Promise(setImmediate);
    if (stop.aborted) return;
    onResult(piece(asked));
  }
}

function doOnThreads<Shared, Piece, Result>(
  name: string,
  { shared, pieces, onResult, stop }: Pieces<Shared, Piece, Result>,
  { workerFile, threads }: { readonly workerFile: URL; readonly threads: number },
): Promise<void> {
  return new Promise((resolve, reject) => {
    const workers = Array.from(
      { length: threads },
      () => new Worker(workerFile, { workerData: { work: name, shared } }),
    );
    let [begun, done] = [0, 0];
    const end = (settle: () => void): void => {
      stop.removeEventListener("abort", stopped);
      Promise.all(workers.map((worker) => worker.terminate())).then(settle, reject);
    };
    const stopped = (): void => end(resolve);
    const begin = (worker: Worker): void => {
      if (begun < pieces.length) worker.postMessage(pieces[begun++]);
    };
    for (const worker of workers) {
      worker.on("message", (result: Result) => {
        if (stop.aborted) return;
        onResult(result);
        done++;
        if (done === pieces.length) end(resolve);
        else begin(worker);
      });
      worker.on("error", (error) => end(() => reject(error)));
      begin(worker);
    }
    if (stop.aborted) stopped();
    else stop.addEventListener("abort", stopped, { once: true });
  });
}

/** On a thread begun by `doPieces`: does the pieces it is sent, one after the other. */
export function serveWork(kinds: readonly Work<never, never, unknown>[]): void {
  const { work, shared } = workerData as { readonly work: string; readonly shared: unknown };
  const kind = kinds.find(({ name }) => name === work) as Work<unknown, unknown, unknown> | undefined;
  if (kind === undefined || parentPort === null) throw new Error(`No thread knows the work "${work}".`);
  const piece = kind.prepare(shared);
  const port = parentPort;
  port.on("message", (asked: unknown) => port.postMessage(piece(asked)));
}
