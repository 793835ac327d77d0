import type { Job } from "../job/index.ts";
import { NAMING_KEYS } from "../job/place.ts";

/** A copy of a job with one place changed, by the path a finding shows: `nodes[car].ratedA`. */
export function setAt(job: Job, path: string, value: unknown): Job {
  const keys = [...path.matchAll(/\[([^\]]+)\]|([^.[\]]+)/g)].map(([, id, key]) =>
    id === undefined ? { key: key ?? "" } : { id },
  );
  const copy = structuredClone(job) as unknown as Record<string, unknown>;
  let here: Record<string, unknown> = copy;
  keys.forEach((step, index) => {
    const key = "id" in step ? indexOf(here as unknown as readonly unknown[], step.id, path) : step.key;
    if (index === keys.length - 1) here[key] = value;
    else here = here[key] as Record<string, unknown>;
    if (here === undefined || here === null) throw new Error(`no ${path} in the job`);
  });
  return copy as unknown as Job;
}

function indexOf(list: readonly unknown[], id: string, path: string): string {
  const index = list.findIndex((entry) =>
    NAMING_KEYS.some((key) => (entry as Record<string, unknown>)[key] === id),
  );
  if (index < 0 && /^\d+$/.test(id)) return id;
  if (index < 0) throw new Error(`no ${id} in ${path}`);
  return String(index);
}
