import * as z from "zod";
import { fact, isoDate, yesNo } from "../fact.ts";

/** Editions of the wiring rules a job can be designed and certified to. Dates and clauses are knowledge. */
const WIRING_RULES = ["bs7671-2018-a1-2020", "bs7671-2018-a2-2022", "bs7671-2018-a4-2026"] as const;

const CERTIFICATES = ["installation", "minor-works"] as const;

export const work = z.strictObject({
  wiringRules: fact(z.enum(WIRING_RULES), {
    title: "edition of the wiring rules",
    ask: "Decide which edition the whole project is designed and certified to.",
  }),
  designedOn: fact(isoDate, { title: "design date", ask: "Enter the day the design is settled." }),
  startsOn: fact(isoDate, { title: "day work starts", ask: "Enter the planned day." }),
  energisedOn: fact(isoDate, { title: "day the charge point was made live", ask: "Enter the day." }),
  signedOn: fact(isoDate, { title: "day the certificate is signed", ask: "Enter the day." }),
  certificate: fact(z.enum(CERTIFICATES), {
    title: "kind of certificate",
    ask: "Choose the certificate that will be issued: a new circuit needs an installation certificate.",
  }),
  addsCircuit: fact(yesNo, {
    title: "the work adds a circuit",
    ask: "See whether the charge point gets a circuit of its own.",
  }),
  installerIsRegistered: fact(yesNo, {
    title: "installer may self-certify",
    ask: "Ask whether the installer is registered with a competent person scheme for this work.",
  }),
  buildingControlToldOn: fact(isoDate, {
    title: "day building control or the scheme was told",
    ask: "Enter the day of the notice.",
  }),
  needsFuseWithdrawal: fact(yesNo, {
    title: "a step needs the main fuse drawn",
    ask: "See whether the tails can be made dead without the main fuse: is there an isolator after the meter?",
  }),
});
