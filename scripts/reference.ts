import { readFileSync, writeFileSync } from "node:fs";
import { GB_RULES } from "@underfuse/engine";
import {
  jobSchemaText,
  RULE_LIST_PATH,
  ruleList,
  rulePage,
  rulePagePath,
  SCHEMA_PATH,
} from "./reference-texts.ts";

writeFileSync(SCHEMA_PATH, jobSchemaText());
writeFileSync(RULE_LIST_PATH, ruleList());
for (const rule of GB_RULES) {
  const path = rulePagePath(rule);
  writeFileSync(path, rulePage(rule, readFileSync(path, "utf8")));
}
