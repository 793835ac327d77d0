import * as z from "zod";

/** The schema of the place that a list of keys leads to in a document; undefined where its schema has no such place. */
export function schemaAt(
  root: z.ZodType,
  document: unknown,
  keys: readonly PropertyKey[],
): z.ZodType | undefined {
  let schema: z.ZodType | undefined = root;
  let value = document;
  for (const key of keys) {
    schema = schema && below(schema, value, key);
    value =
      typeof value === "object" && value !== null ? (value as Record<PropertyKey, unknown>)[key] : undefined;
  }
  return schema;
}

function below(schema: z.ZodType, value: unknown, key: PropertyKey): z.ZodType | undefined {
  if (schema instanceof z.ZodNullable || schema instanceof z.ZodDefault)
    return below(schema.unwrap() as z.ZodType, value, key);
  if (schema instanceof z.ZodUnion)
    return typeof value === "object" && value !== null
      ? below(branchFor(value, schema), value, key)
      : undefined;
  if (schema instanceof z.ZodArray) return schema.element as z.ZodType;
  if (schema instanceof z.ZodObject)
    return Object.hasOwn(schema.shape, key)
      ? (schema.shape as Record<PropertyKey, z.ZodType>)[key]
      : undefined;
  return undefined;
}

/** The branch of a union that describes an object: by its discriminator, or the only object among the branches. */
export function branchFor(value: object, union: z.ZodUnion): z.ZodType {
  const key = union instanceof z.ZodDiscriminatedUnion ? union.def.discriminator : "kind";
  const objects = (union.options as z.ZodType[]).filter((option) => option instanceof z.ZodObject);
  const word = (value as Record<string, unknown>)[key];
  const branch =
    objects.length === 1
      ? objects[0]
      : objects.find((option) => (option.shape[key] as z.ZodLiteral | undefined)?.values.has(word as string));
  return branch ?? z.unknown();
}
