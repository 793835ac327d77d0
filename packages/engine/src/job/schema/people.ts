import * as z from "zod";
import { fact, text } from "../fact.ts";

const ROLES = ["customer", "occupier", "designer", "installer", "inspector", "network-operator"] as const;

const ask = "Ask the person.";

/** Somebody who answers for part of the job, by role. */
export const person = z.strictObject({
  role: z.enum(ROLES),
  name: fact(text, { title: "name", ask }),
  organisation: fact(text, { title: "organisation", ask }),
  registration: fact(text, {
    title: "registration with a competent person scheme",
    ask: "Ask the person; give scheme and number.",
  }),
  phone: fact(text, { title: "telephone number", ask }),
  email: fact(text, { title: "electronic mail address", ask }),
});
