import type { ApplianceTable } from "../demand/index.ts";
import { type Problem, parseJsonText, schemaProblems } from "../job/index.ts";
import { PORTFOLIO_FORMAT, type Portfolio, portfolioSchema } from "./portfolio.ts";

export type PortfolioResult =
  | { readonly ok: true; readonly portfolio: Portfolio }
  | { readonly ok: false; readonly problems: readonly Problem[] };

/** More days of a home than a person waits for: an hour or so on two threads. */
const MAX_HOME_DAYS = 200_000_000;
/** More days of a street than are kept side by side. */
const MAX_STREET_DAYS = 400_000;

/** Reads a portfolio: what it says, or what stands in the way and how to mend it. Never throws. */
export function parsePortfolio(text: string, table: ApplianceTable): PortfolioResult {
  const json = parseJsonText(text);
  if (!json.ok) return { ok: false, problems: [json.problem] };
  const { value } = json;
  const format = typeof value === "object" && value !== null && "format" in value ? value.format : undefined;
  if (format !== PORTFOLIO_FORMAT) {
    return refused({
      code: "NOT_A_PORTFOLIO",
      path: "format",
      received: typeof format === "string" ? `"${format.slice(0, 40)}"` : "nothing",
      message: `This is not a portfolio: it begins with "format": "${PORTFOLIO_FORMAT}". Check that the right file was chosen.`,
    });
  }
  const parsed = portfolioSchema.safeParse(value, { reportInput: false });
  if (!parsed.success)
    return { ok: false, problems: schemaProblems(parsed.error.issues, value, portfolioSchema) };
  const problems = [...unknownAppliances(parsed.data, table), ...tooMuch(parsed.data)];
  return problems.length === 0 ? { ok: true, portfolio: parsed.data } : { ok: false, problems };
}

const refused = (problem: Problem): PortfolioResult => ({ ok: false, problems: [problem] });

function unknownAppliances({ ownedShares }: Portfolio, table: ApplianceTable): readonly Problem[] {
  const known = Object.keys(table.figures.rows).filter((id) => id !== "electric-shower");
  return Object.keys(ownedShares ?? {})
    .filter((id) => !known.includes(id))
    .map((id) => ({
      code: "FIELD_UNKNOWN",
      path: `ownedShares.${id}`,
      received: String(ownedShares?.[id]),
      message:
        id === "electric-shower"
          ? 'Showers have a field of their own: write "electricShowerShare" and leave this out.'
          : `There is no such appliance. It must be one of: ${known.join(", ")}.`,
    }));
}

function tooMuch({ homes, days, draws }: Portfolio): readonly Problem[] {
  const homeDays = homes * days.count * draws;
  const received = `${homes} homes, ${days.count} days, ${draws} draws`;
  const problem = (message: string): Problem => ({
    code: "FIELD_OUT_OF_RANGE",
    path: "draws",
    received,
    message,
  });
  if (homeDays > MAX_HOME_DAYS)
    return [
      problem(
        `Together these are ${homeDays} days of a home, more than ${MAX_HOME_DAYS}. Take fewer draws or days.`,
      ),
    ];
  if (days.count * draws > MAX_STREET_DAYS)
    return [
      problem(
        `Together these are ${days.count * draws} days of a street, more than ${MAX_STREET_DAYS}. Take fewer draws or days.`,
      ),
    ];
  return [];
}
