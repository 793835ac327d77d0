import type { Assessment } from "@underfuse/engine";

/** Exit statuses of the command line; `stopped` is what a shell gives a program that Ctrl-C ended. */
export const EXIT = { allPass: 0, fails: 1, cannotTell: 2, unreadable: 64, stopped: 130 } as const;

/** 1 when a check fails, else 2 when something cannot be told, else 0. */
export function assessmentStatus({
  findings,
  isCovered,
}: Pick<Assessment, "findings" | "isCovered">): number {
  if (findings.some(({ verdict }) => verdict === "fail")) return EXIT.fails;
  if (!isCovered || findings.some(({ verdict }) => verdict === "cannot-tell")) return EXIT.cannotTell;
  return EXIT.allPass;
}

/** Thrown to end a command with a message for the person and a status for the shell. */
export class Refusal extends Error {
  override readonly name = "Refusal";
  constructor(
    message: string,
    readonly status: number = EXIT.unreadable,
  ) {
    super(message);
  }
}
