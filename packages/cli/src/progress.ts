const BAR_WIDTH = 30;
/** The line is written again no more often than this. [ms] */
const LEAST_MS = 100;

/** What a bar of progress needs of the world. */
export interface ProgressWorld {
  readonly err: (text: string) => void;
  /** True when messages go to a terminal, where a line may be written over. */
  readonly isErrTerminal: boolean;
  /** Milliseconds from some fixed moment. */
  readonly nowMs: () => number;
}

export interface Progress {
  /** Says how much is done, from 0 to 1. */
  readonly update: (share: number) => void;
  /** Takes the line away, so that what comes next begins on an empty one. */
  readonly clear: () => void;
}

/**
 * A line that shows how far a long piece of work has come and how long the rest will take. It goes to the
 * messages and never to the results, and where messages go to no terminal nothing is written at all.
 */
export function progress(what: string, world: ProgressWorld): Progress {
  if (!world.isErrTerminal) return { update: () => undefined, clear: () => undefined };
  const startedMs = world.nowMs();
  let shownMs = Number.NEGATIVE_INFINITY;
  let shownLength = 0;
  return {
    update: (share) => {
      const nowMs = world.nowMs();
      if (nowMs - shownMs < LEAST_MS && share < 1) return;
      shownMs = nowMs;
      const line = `${what} ${bar(share)} ${String(Math.floor(share * 100)).padStart(3)} %${rest(share, nowMs - startedMs)}`;
      world.err(`\r${line.padEnd(shownLength)}`);
      shownLength = line.length;
    },
    clear: () => {
      if (shownLength > 0) world.err(`\r${" ".repeat(shownLength)}\r`);
      shownLength = 0;
    },
  };
}

function bar(share: number): string {
  const full = Math.floor(share * BAR_WIDTH);
  return `[${"=".repeat(full)}${" ".repeat(BAR_WIDTH - full)}]`;
}

/** Time the rest will take at the rate so far; nothing before there is a rate. */
function rest(share: number, elapsedMs: number): string {
  if (share <= 0 || share >= 1 || elapsedMs < 1000) return "";
  const leftS = Math.ceil((elapsedMs * (1 - share)) / share / 1000);
  return leftS < 100 ? `, ${leftS} s left` : `, ${Math.ceil(leftS / 60)} min left`;
}
