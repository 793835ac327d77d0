import { describe, expect, it } from "vitest";
import { blankManagedJob, known } from "../job/index.ts";
import { openJob } from "../supply/index.ts";
import { figures } from "../testing/knowledge.ts";
import { timeToFallback } from "./time-to-fallback.ts";

function given(changes: object, givenS: number | null = null) {
  const job = blankManagedJob({ id: "site", title: "Site", jurisdiction: "england", phases: 1 });
  const open = openJob(JSON.stringify({ ...job, limiter: { ...job.limiter, ...changes } }));
  if (!open.ok) throw new Error(JSON.stringify(open.problems));
  return timeToFallback({ job: open.job, figures }, givenS);
}

describe(timeToFallback, () => {
  it("is the job's time-out and what command and car take after it", () => {
    expect(given({ fallbackAfterS: known(10) }).timeS).toBe(15);
    expect(given({ fallbackAfterS: known(10), commandS: known(2) }).timeS).toBe(17);
    expect(given({ fallbackAfterS: known(10) }).words).toContain(
      "the job's time-out of 10 s, and 5 s for the car",
    );
  });
  it("is what was given, which stands alone; that the job says otherwise is said", () => {
    expect(given({ fallbackAfterS: known(10) }, 12)).toEqual({
      timeS: 12,
      words: "Fallback judged by 12 s, as given; the job has 10 s as its time-out.",
    });
    expect(given({}, 12).words).toBe("Fallback judged by 12 s, as given.");
  });
  it("is not known where neither says it, and a time-out of nothing is one", () => {
    expect(given({}).timeS).toBeNull();
    expect(given({}).words).toContain("record it as limiter.fallbackAfterS");
    expect(given({ fallbackAfterS: known(0) }).timeS).toBe(5);
  });
});
