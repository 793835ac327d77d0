import type { LocatedJob } from "../job/index.ts";
import { LINES } from "../quantities/index.ts";
import type { SupplyTree } from "../supply/index.ts";
import type { ChainDesign } from "./chain-design.ts";
import { designedPlaces } from "./designed-place.ts";

/** Errors of ratio and angle of transformer, meter and position together, one standard deviation. Own judgement. */
const USUAL_GAIN_SD = 0.015;
const USUAL_ANGLE_SD = 0.011;

/** The metering chain as the job designs it; null where the job has none. */
export function chainOfJob(job: LocatedJob, tree: SupplyTree): ChainDesign | null {
  const { metering } = job;
  if (metering === null) return null;
  const supplyLines = tree.serviceCable.lines.length;
  const transformers = metering.currentTransformers;
  const channels = new Set(transformers.map(({ channel }) => channel));
  const lines = supplyLines === 3 && channels.size !== 1 ? 3 : 1;
  const first = transformers[0];
  const names = lines === 3 ? LINES : ([supplyLines === 3 ? (first?.channel ?? "L1") : "L1"] as const);
  const output = first?.output.state === "known" ? first.output.value : null;
  const secondaryA = output === "5-A" ? 5 : output === "1-A" ? 1 : null;
  const primaryA = first?.ratedPrimaryA.state === "known" ? first.ratedPrimaryA.value : null;
  return {
    lines,
    channels: names,
    isOnThreePhaseSupply: supplyLines === 3 && lines === 1,
    secondaryA,
    primaryA,
    ratio: secondaryA === null || primaryA === null ? null : primaryA / secondaryA,
    gainSd: USUAL_GAIN_SD,
    angleSd: USUAL_ANGLE_SD,
    hasGeneration: job.nodes.some(({ kind }) => kind === "generator" || kind === "storage"),
    places: designedPlaces(job, tree, names),
  };
}

/**
 * A short mark of everything a proof of the chain rests on: transformers, meter, settings and the tree
 * above them. When it changes, what was proved is proved no longer.
 */
export function chainMark(job: LocatedJob): string {
  const text = JSON.stringify([
    plain(job.metering),
    job.nodes.map(({ id, kind }) => [id, kind]),
    job.cables.map(({ id, from, to, lines }) => [id, from, to, lines]),
  ]);
  // FNV-1a, 32 bits, twice with different beginnings: to notice a change, not to resist a forger.
  return [0x811c9dc5, 0x1000193].map((start) => hash(text, start)).join("");
}

function hash(text: string, start: number): string {
  let value = start;
  for (let i = 0; i < text.length; i++) value = Math.imul(value ^ text.charCodeAt(i), 0x01000193);
  return (value >>> 0).toString(16).padStart(8, "0");
}

/** Facts as value alone: a note or a date added to a fact changes nothing that was proved. */
function plain(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(plain);
  if (typeof value !== "object" || value === null) return value;
  if ("state" in value) return "value" in value ? value.value : value.state;
  return Object.fromEntries(Object.entries(value).map(([key, inner]) => [key, plain(inner)]));
}
