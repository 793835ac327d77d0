import { describe, expect, it } from "vitest";
import { unitIn } from "./unit.ts";

describe("unitIn", () => {
  it.each([
    ["Consumption (kWh)", "kWh"],
    ["HH01 KWH", "kWh"],
    ["import_wh", "Wh"],
    ["Mean power kW", "kW"],
    ["Power [W]", "W"],
    ["MW", "MW"],
    ["L1 A", "A"],
    ["current_A", "A"],
    ["Amps", "A"],
    ["kilowatt hours", "kWh"],
  ])("%s: %s", (heading, unit) => expect(unitIn(heading)).toBe(unit));
  it.each(["kVArh", "kVA", "Power", "Phase A", "A/E", "Watford", "Global_intensity", "", "mw", "Row"])(
    "%s names none",
    (heading) => expect(unitIn(heading)).toBeNull(),
  );
});
