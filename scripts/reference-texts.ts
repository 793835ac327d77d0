/** The parts of docs/ that are written from the code, so that the two cannot part. */
import { citationText, GB_RULES, jobJsonSchema, type Rule } from "@underfuse/engine";
import { GREAT_BRITAIN } from "@underfuse/knowledge";

export const SCHEMA_PATH = "docs/reference/job.schema.json";
export const jobSchemaText = (): string => `${JSON.stringify(jobJsonSchema(), null, 2)}\n`;

export const rulePagePath = ({ id }: Rule): string => `docs/rules/${id}.md`;

const JURISDICTIONS: Readonly<Record<string, string>> = {
  england: "England",
  wales: "Wales",
  scotland: "Scotland",
  "northern-ireland": "Northern Ireland",
};

/** A rule's page with its head, sources and sentences as the rule has them now; the rest as it was written. */
export function rulePage(rule: Rule, before: string): string {
  const written = /^## What it checks$[\s\S]*?(?=^## Source$|(?![\s\S]))/m.exec(before)?.[0] ?? "";
  const where = rule.jurisdictions.map((id) => JURISDICTIONS[id] ?? id).join(", ");
  const printed = GREAT_BRITAIN.clauses[rule.id]?.printed ?? [];
  return `${[
    `# ${rule.title}`,
    `\`${rule.id}\` · stage: ${rule.stage.replace("-", " ")} · applies in ${where}`,
    written.trimEnd(),
    "## Source",
    printed
      .map(({ edition, citation }) => {
        const from = GREAT_BRITAIN.editions.find(({ id }) => id === edition)?.title;
        const words = citationText(citation, { knowledge: GREAT_BRITAIN });
        return from === undefined ? `- ${words}` : `- from ${from}: ${words}`;
      })
      .join("\n"),
    "## What it may say",
    Object.entries(rule.messages)
      .map(([name, template]) => `- \`${name}\`: ${template}`)
      .join("\n"),
  ].join("\n\n")}\n`;
}

/** The list of all rules in the order of the job. */
export const RULE_LIST_PATH = "docs/rules/README.md";
export function ruleList(): string {
  const stages = [...new Set(GB_RULES.map(({ stage }) => stage))];
  const parts = stages.map((stage) => {
    const rows = GB_RULES.filter((rule) => rule.stage === stage).map(
      ({ id, title }) => `- [${title}](${id}.md)`,
    );
    const heading = stage.replace("-", " ");
    return [`## ${heading.charAt(0).toUpperCase()}${heading.slice(1)}`, rows.join("\n")].join("\n\n");
  });
  return `${["# Checks", "Every check, in the order in which a job is done.", ...parts].join("\n\n")}\n`;
}
