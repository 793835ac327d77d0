import { expect, it } from "vitest";
import { plain } from "../testing/plain.ts";
import { fallbackTotal } from "./limit.ts";

it.each([
  [50, 10],
  [54, 6],
  [54.1, 0],
  [70, 0],
])(
  "with %d A for all the rest a limit of 60 A leaves %d A: the least offer of 6 A, or none",
  (restA, fallbackA) =>
    expect(
      fallbackTotal(plain("Ilim", 60, "A"), plain("Irest", restA, "A"), () => plain("Imin", 6, "A")),
    ).toMatchObject({
      value: fallbackA,
    }),
);
