import { InvalidArgumentError } from "commander";

/** Most days of a run. */
export const MOST_DAYS = 3660;

const whole =
  (most: number, what: string) =>
  (text: string): number => {
    const value = Number(text);
    if (!(/^\d+$/.test(text) && value >= 1 && value <= most))
      throw new InvalidArgumentError(`Write a whole number of ${what} from 1 to ${most}.`);
    return value;
  };
export const wholeDays = whole(MOST_DAYS, "days");
export const wholeSeeds = whole(1000, "seeds");

export function seed(text: string): number {
  const value = Number(text);
  if (!(/^\d+$/.test(text) && value <= Number.MAX_SAFE_INTEGER))
    throw new InvalidArgumentError("Write a whole number such as 7.");
  return value;
}

const listOf =
  (least: number, most: number, what: string) =>
  (text: string): readonly number[] => {
    const values = text.split(",").map((item) => (item.trim() === "" ? Number.NaN : Number(item)));
    if (!values.every((value) => value >= least && value <= most))
      throw new InvalidArgumentError(`Write ${what} from ${least} to ${most} with commas between them.`);
    return [...new Set(values)];
  };
export const amperes = listOf(0, 1000, "amperes");
export const periods = listOf(0.05, 3600, "seconds");
