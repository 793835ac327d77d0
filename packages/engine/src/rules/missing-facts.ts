import type { Missing } from "../worked/index.ts";
import type { Finding } from "./finding.ts";

/** A fact that is missing, and what knowing it would settle. */
export interface MissingFact extends Missing {
  /** Findings that would be decided by this alone. */
  readonly settles: readonly string[];
  /** Findings that need it together with others. */
  readonly helps: readonly string[];
}

/**
 * What is missing, most valuable first.
 *
 * First what decides most findings by itself; then what takes part in most others, a finding that lacks
 * n things counting 1/n; then in the order the job is done. This list is the survey.
 */
export function missingFacts(findings: readonly Finding[]): readonly MissingFact[] {
  const entries = new Map<
    string,
    { item: Missing; settles: string[]; helps: string[]; weight: number; first: number }
  >();
  findings.forEach((finding, order) => {
    const lacks = finding.verdict === "cannot-tell" ? (finding.missing ?? []) : [];
    for (const item of lacks) {
      const entry = entries.get(item.path) ?? { item, settles: [], helps: [], weight: 0, first: order };
      (lacks.length === 1 ? entry.settles : entry.helps).push(finding.id);
      entry.weight += 1 / lacks.length;
      entries.set(item.path, entry);
    }
  });
  return [...entries.values()]
    .sort((a, b) => b.settles.length - a.settles.length || b.weight - a.weight || a.first - b.first)
    .map(({ item, settles, helps }) => ({ ...item, settles, helps }));
}
