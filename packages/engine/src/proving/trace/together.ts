import type { Line } from "../../quantities/index.ts";
import { type Claim, type ClaimId, type TraceVerdict, worstVerdict } from "./claim.ts";
import { greatest } from "./excursion.ts";
import type { JudgedLine, JudgedTrace } from "./judge-trace.ts";

/** A claim, and which of the traces it was taken from. */
export interface SharedClaim extends Claim {
  /** Place among the traces. */
  readonly trace: number;
}

/** One line over several traces. */
export interface SharedLine {
  readonly line: Line;
  readonly verdict: TraceVerdict;
  readonly claims: readonly SharedClaim[];
}

/** One statement from several traces. */
export interface JudgedTogether {
  readonly verdict: TraceVerdict;
  readonly lines: readonly SharedLine[];
}

/**
 * What several traces of one job prove together, line by line.
 *
 * A failure in any of them fails. What is tried is proved by one trace that proves it. That the main fuse was
 * kept away from operating must hold in all of them. What is wrong with a trace itself takes only that trace's
 * word for the reaction away, unless it holds for all.
 *
 * @param traces Judged against the same bounds, at least one
 */
export function judgeTogether(traces: readonly JudgedTrace[]): JudgedTogether {
  const lines = (traces[0]?.lines ?? []).map(({ line }): SharedLine => {
    const claims = shared(traces.map(({ lines }) => lines.find((each) => each.line === line)));
    return { line, claims, verdict: worstVerdict(claims.map(({ verdict }) => verdict)) };
  });
  return { lines, verdict: worstVerdict(lines.map(({ verdict }) => verdict)) };
}

const TRIED: readonly ClaimId[] = ["reaction", "bus-lost", "meter-lost", "manager-lost"];

function shared(of: readonly (JudgedLine | undefined)[]): readonly SharedClaim[] {
  const all = of.flatMap((line, trace) =>
    (line?.claims ?? []).map((claim): SharedClaim => ({ ...claim, trace })),
  );
  const doubted = new Set(all.filter(({ claim }) => claim === "trace").map(({ trace }) => trace));
  const standing = all.filter(({ claim }) => claim === "trace");
  const tried = TRIED.flatMap((id): readonly SharedClaim[] => {
    const own = all.filter(({ claim }) => claim === id);
    const isGood = ({ verdict, trace }: SharedClaim) =>
      verdict === "proved" && (id !== "reaction" || !doubted.has(trace));
    const chosen =
      hardest(own.filter(({ verdict }) => verdict === "failed")) ??
      hardest(own.filter(isGood)) ??
      hardest(own.filter(({ verdict }) => verdict === "proved")) ??
      own.find(({ reason }) => reason !== "notTried" && reason !== "neverOver") ??
      own[0];
    return chosen === undefined ? [] : [chosen];
  });
  const fuse = all.filter(({ claim }) => claim === "main-fuse");
  const worst = ["failed", "cannot-tell", "proved"].flatMap(
    (verdict) => hardest(fuse.filter((each) => each.verdict === verdict)) ?? [],
  )[0];
  // A doubt about one trace matters where no other trace stands without one.
  const isCovered = of.some(
    (line, trace) => line?.claims.some(({ claim }) => claim === "reaction") && !doubted.has(trace),
  );
  return [...(isCovered ? [] : standing.slice(0, 1)), ...tried, ...(worst === undefined ? [] : [worst])];
}

/** Of claims with one verdict the one that asked most: the longest time, or the nearest to the fuse's edge. */
const hardest = (claims: readonly SharedClaim[]): SharedClaim | undefined =>
  greatest(
    claims,
    ({ data: { mostS, leastS, usedShare, peakA } }) =>
      mostS ?? leastS ?? (usedShare ?? 0) * A_LOT + (peakA ?? 0),
  ) ?? undefined;

/** More than any current: a share of the fuse's time counts before the height of the current. [A] */
const A_LOT = 1e9;
