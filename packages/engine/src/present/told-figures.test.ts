import { expect, it } from "vitest";
import { plain } from "../testing/shown-run.ts";
import { amps, setAmps } from "./told-figures.ts";

it.each([
  [60, "60 A"],
  [59.3, "59.3 A"],
  // 60 − 1.8 is a little less than 58.2 in binary; a hundredth less would be another setting.
  [60 - 1.8, "58.2 A"],
  [57.9199, "57.91 A"],
])("a current of %d A that is set is never told higher than it is", (value, told) =>
  expect(plain(setAmps(value))).toBe(told),
);

it("a current that flows is never told lower than it is", () => expect(plain(amps(60.01))).toBe("60.1 A"));
