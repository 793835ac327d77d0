import { describe, expect, it } from "vitest";
import { NO_OFFSET, readWrittenTime } from "./time-of-day.ts";

const read = (text: string) => {
  const time = { secondS: 0, offsetMin: 0 };
  readWrittenTime(text, time);
  return time.secondS < 0 ? null : [time.secondS, time.offsetMin];
};

describe("a time as files write it", () => {
  it.each([
    ["00:30", 1800, NO_OFFSET],
    ["17:24:59", 62_699, NO_OFFSET],
    ["0:30", 1800, NO_OFFSET],
    ["24:00", 86_400, NO_OFFSET],
    ["0030", 1800, NO_OFFSET],
    ["12:30 am", 1800, NO_OFFSET],
    ["12:30PM", 45_000, NO_OFFSET],
    ["00:30:00.000", 1800, NO_OFFSET],
    ["00:30Z", 1800, 0],
    ["00:30:00+01:00", 1800, 60],
    ["00:30:00-0330", 1800, -210],
    ["00:30 GMT", 1800, 0],
  ])("%s", (text, secondS, offsetMin) => expect(read(text)).toEqual([secondS, offsetMin]));
  it.each([
    "",
    "24:30",
    "00:60",
    "25:00",
    "0.5",
    "00:30:60",
    "00:30:61",
    "00:30:00.5",
    "13:00 pm",
    "noon",
    "1:2",
    "00:30+25:00",
    "::::::::",
    "0x:10",
  ])("%s is none", (text) => expect(read(text)).toBeNull());
});
