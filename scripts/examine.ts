import { writeFileSync } from "node:fs";
import { GREAT_BRITAIN } from "@underfuse/knowledge";
import { weightsOf } from "../packages/engine/src/proving/diagnose.ts";
import { hypotheses } from "../packages/engine/src/proving/hypotheses.ts";
import {
  examine,
  examinedDesign,
  OBSERVABLES,
  type Observables,
} from "../packages/engine/src/testing/examination.ts";

const QUESTIONS = Number(process.env.QUESTIONS ?? 200);
const weights = weightsOf(GREAT_BRITAIN.faults);
const percent = (part: number, whole: number): string =>
  whole === 0 ? "–" : `${((100 * part) / whole).toFixed(1)} %`;
const NAMES = ["none", "one", "two"];

const rows = ([3, 1] as const).flatMap((lines) => {
  const design = examinedDesign(lines);
  const prepared = hypotheses(design, weights);
  return (Object.keys(OBSERVABLES) as Observables[]).flatMap((observables) =>
    NAMES.map((name, faultCount) => {
      const marks = examine(design, weights, prepared, {
        faultCount,
        observables,
        questions: QUESTIONS,
        seed: 100 + faultCount,
      });
      const row = `| ${lines} | ${observables} | ${name} | ${percent(marks.right, marks.questions)} | ${percent(marks.onScreen, marks.questions)} | ${percent(marks.first, marks.questions)} | ${percent(marks.sure, marks.questions)} | ${percent(marks.sureAndRight, marks.sure)} |`;
      console.log(row);
      return row;
    }),
  );
});

writeFileSync(
  "docs/examination.md",
  `# The examination of the diagnosis

Seeded questions, ${QUESTIONS} a row: a random site; no fault, one, or two, drawn as common as the catalogue says; an idle reading and three steps (the car on one line after another at 32 A; on a single phase the car at 16 A and at 32 A, then a heater of 2 kW); the building's load moving by about an ampere between steps; ratio errors up to 2.5 %, angle errors up to 1°, random errors of 0.2 %, displays of 1 or 10 W and 0.01 or 0.1 A; a car that draws 92 to 100 % of its offer. Made by \`npm run examine\`; the test suite sits a short form on the same seeds.

*Right* means that the first class of the answer names the truth: as its likeliest cause, or as one of the hundred at most that are written out as reading alike. A cause with a fault more that changes no reading counts as named with it. *On screen* counts only the first seven, as a screen shows them, and *first* only the likeliest. *Sure* means a verdict rather than "these readings do not tell it yet": nine tenths of belief in one class, and for a sound chain two thirds in it alone. The last column is what a person relies on.

Two causes read alike when the readings make neither likelier by more than a factor of e; or when one could have shown what the other predicts for these steps on a site that stands still, within k = 2 of the errors of site, car and instruments, and the readings do not rule it out beside the other at a hundred to one. The second is a matter of physics and not of the noise of the day: a transformer that turns by 3° beside a car whose own phase angle is known to 2° is such a pair. The answer names what reads alike, and the examiner asks for nothing else.

| lines | read | faults | right | on screen | first | sure | right when sure |
| ----- | ---- | ------ | ----- | --------- | ----- | ---- | --------------- |
${rows.join("\n")}
`,
);
