import * as z from "zod";
import { fact, number, words, yesNo } from "../fact.ts";

const time = z.string().regex(/^\d{4}-\d{2}-\d{2}T\d{2}:\d{2}(:\d{2})?$/, {
  error: "must be local date and time, such as 2026-11-25T09:40",
});
const DEAD_PAIRS = [
  "L1-N",
  "L2-N",
  "L3-N",
  "L1-E",
  "L2-E",
  "L3-E",
  "N-E",
  "L1-L2",
  "L2-L3",
  "L3-L1",
] as const;

/** One proof that a part is dead: tester proved, part tested, tester proved again. */
const deadProof = z.strictObject({
  where: words(60).meta({ description: "Node that was made dead." }),
  testerProvedAt: fact(time, {
    title: "tester proved",
    ask: "Prove the tester on a known source or proving unit.",
  }),
  testedDeadAt: fact(time, {
    title: "tested dead",
    ask: "Test every pair of conductors at the place of work.",
  }),
  testerReprovedAt: fact(time, {
    title: "tester proved again",
    ask: "Prove the tester again straight after.",
  }),
  pairs: z.array(z.enum(DEAD_PAIRS)).max(DEAD_PAIRS.length),
});

/** Results for one final or distribution circuit. */
export const circuitTest = z.strictObject({
  way: words(60).meta({
    description: "Node whose overcurrent device protects the circuit: a way, a switch-fuse, or the cut-out.",
  }),
  r1r2Ohm: fact(number(0, 1000), {
    title: "R1 + R2, measured cold",
    unit: "Ω",
    ask: "Link line and protective conductor at the far end, dead, and measure.",
  }),
  insulationMohm: fact(number(0, 100_000), {
    title: "insulation resistance, lowest",
    unit: "MΩ",
    ask: "Test dead with electronics disconnected or linked.",
  }),
  insulationTestV: fact(number(50, 2500), {
    title: "insulation test voltage",
    unit: "V",
    ask: "Read the instrument; 500 V for circuits up to 500 V.",
  }),
  polarityIsRight: fact(yesNo, { title: "polarity confirmed", ask: "Prove at the point of use." }),
  zsOhm: fact(number(0, 100_000), {
    title: "earth fault loop impedance, measured",
    unit: "Ω",
    ask: "Measure at the farthest point.",
  }),
  rcdTimeMs: fact(number(0, 10_000), {
    title: "residual current device time at rated current",
    unit: "ms",
    ask: "Longest of both half-waves at 1 × rated residual current.",
  }),
  rcdTimeAtFiveMs: fact(number(0, 10_000), {
    title: "residual current device time at five times rated current",
    unit: "ms",
    ask: "Where a shorter time must be shown.",
  }),
  rcdButtonWorks: fact(yesNo, { title: "test button works", ask: "Press it after the instrument test." }),
});

export const tests = z.strictObject({
  deadProofs: z.array(deadProof).max(100),
  circuits: z.array(circuitTest).max(1000),
});
