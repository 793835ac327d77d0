import { type Problem, shortly } from "./problem.ts";

/** Says that a document is of another kind than was asked for; null where its format is the one wanted. */
export function problemOfFormat(
  value: unknown,
  wanted: { readonly format: string; readonly code: Problem["code"]; readonly what: string },
): Problem | null {
  const format =
    typeof value === "object" && value !== null && !Array.isArray(value) && "format" in value
      ? value.format
      : undefined;
  if (format === wanted.format) return null;
  return {
    code: wanted.code,
    path: "format",
    received: shortly(format),
    message: `This is not ${wanted.what}: it begins with "format": "${wanted.format}". Check that the right file was chosen.`,
  };
}
