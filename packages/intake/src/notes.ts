import type { Conclusion, ImportResult, IntakeProblem, Question, Remark } from "./import-result.ts";

/** Problems that are kept; a file that is wrong throughout needs no longer list. */
const MAX_PROBLEMS = 20;

/** What an import has concluded, must ask, found wrong and wants to say, in the order it came up. */
export class Notes {
  readonly conclusions: Conclusion[] = [];
  readonly questions: Question[] = [];
  readonly problems: IntakeProblem[] = [];
  readonly remarks: Remark[] = [];
  #isStopped = false;

  conclude(id: string, says: string, because: string, basis: Conclusion["basis"] = "seen"): void {
    this.conclusions.push({ id, says, because, basis });
  }

  ask(question: Question): void {
    if (!this.questions.some(({ id }) => id === question.id)) this.questions.push(question);
  }

  refuse(problem: IntakeProblem): void {
    if (this.problems.length < MAX_PROBLEMS)
      this.problems.push({ ...problem, found: shortened(problem.found) });
  }

  remark(id: string, says: string): void {
    this.remarks.push({ id, says });
  }

  /** The result of an import that gives no series. */
  outcome(): ImportResult {
    const { conclusions, questions, problems, remarks } = this;
    if (problems.length > 0) return { state: "refused", problems, conclusions };
    return { state: "questions", questions, conclusions, remarks };
  }

  /** Says that what was refused leaves nothing to read on for. */
  stop(): void {
    this.#isStopped = true;
  }

  /** True when reading on can tell nothing more. */
  get isFull(): boolean {
    return this.#isStopped || this.problems.length >= MAX_PROBLEMS;
  }
}

/** A text of unknown length, short enough for a message. */
export const shortened = (text: string): string => (text.length > 60 ? `${text.slice(0, 60)}…` : text);
