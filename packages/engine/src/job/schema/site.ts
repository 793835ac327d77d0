import * as z from "zod";
import { fact, text, yesNo } from "../fact.ts";

const JURISDICTIONS = ["england", "wales", "scotland", "northern-ireland", "ireland"] as const;
const PREMISES = ["dwelling", "shop-or-office", "guest-house", "other"] as const;

export const site = z.strictObject({
  jurisdiction: z.enum(JURISDICTIONS).meta({ description: "Whose rules apply." }),
  address: fact(text, { title: "address with postcode", ask: "Ask the customer." }),
  meterPoint: fact(
    z
      .string()
      .regex(/^[0-9 ]{11,26}$/, { error: "must be digits: 21 or 13 in Great Britain, 11 in Ireland" }),
    {
      title: "meter point number",
      ask: "Read it from a bill or from the meter; 21 digits (or the last 13), in Northern Ireland 11.",
    },
  ),
  premises: fact(z.enum(PREMISES), { title: "kind of premises", ask: "See what the building is used for." }),
  isNewBuilding: fact(yesNo, {
    title: "new building work",
    ask: "Ask whether the charge point comes with a new building or a major renovation.",
  }),
});
