import { EngineError } from "./engine-error.ts";

/**
 * Guards a numeric argument.
 *
 * @throws EngineError OUT_OF_DOMAIN unless `value` lies in the stated range; NaN never passes.
 */
export function requireInRange(name: string, value: number, min: number, max: number): void {
  if (value >= min && value <= max) return;
  throw new EngineError(
    "OUT_OF_DOMAIN",
    `${name} is ${value}; it must be from ${min} to ${max}. Check the unit: ${name} ends with the one expected.`,
    { name, value, min, max },
  );
}
