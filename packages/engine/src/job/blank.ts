/**
 * Blank parts of a job, made from the schema itself: every fact not recorded, every list empty, every
 * optional part absent. A blank job is a survey sheet: nothing in it is known and nothing is zero.
 *
 * @module
 */
import * as z from "zod";
import { guideOf, NOT_RECORDED } from "./fact.ts";
import { cableRun } from "./schema/cable.ts";
import { overcurrentDevice, residualDevice } from "./schema/devices.ts";
import { electrode, rods } from "./schema/earthing.ts";
import { FORMAT, FORMAT_VERSION, type Job, type JobNode, jobSchema } from "./schema/job.ts";
import { limiter } from "./schema/limiter.ts";
import { bus, currentTransformer, metering } from "./schema/metering.ts";
import { node } from "./schema/node.ts";
import { person } from "./schema/people.ts";
import { circuitTest } from "./schema/tests.ts";

/** An object of the schema with its facts not recorded; plain fields that cannot be blank must be given. */
function blank<S extends z.ZodObject>(schema: S, plain: Partial<z.infer<S>>): z.infer<S> {
  const entries = Object.entries(schema.shape as Record<string, z.ZodType>).map(([key, field]) => [
    key,
    key in plain ? (plain as Record<string, unknown>)[key] : blankField(field, key),
  ]);
  return Object.fromEntries(entries) as z.infer<S>;
}

function blankField(field: z.ZodType, key: string): unknown {
  if (guideOf(field) !== undefined) return NOT_RECORDED;
  if (field instanceof z.ZodNullable) return null;
  if (field instanceof z.ZodArray) return [];
  if (field instanceof z.ZodDefault) return field.parse(undefined);
  if (field instanceof z.ZodObject) return blank(field, {});
  if (field instanceof z.ZodLiteral) return field.value;
  throw new TypeError(`The field "${key}" has no blank: give it a value.`);
}

type NodeOf<K extends JobNode["kind"]> = Extract<JobNode, { kind: K }>;

/** A blank node of one kind. */
export function blankNode<K extends JobNode["kind"]>(
  kind: K,
  plain: Partial<NodeOf<K>> & Pick<NodeOf<K>, "id" | "label">,
): NodeOf<K> {
  const branch = node.options.find((option) => option.shape.kind.value === kind) as unknown as z.ZodObject;
  return blank(branch, plain as never) as unknown as NodeOf<K>;
}

export const blankCableRun = () => blank(cableRun, {});
export const blankOvercurrent = () => blank(overcurrentDevice, {});
const blankResidual = () => blank(residualDevice, {});
export const blankElectrode = () => blank(electrode, {});
export const blankRods = () => blank(rods, {});
export const blankMetering = () => blank(metering, {});
const blankBus = () => blank(bus, {});
const blankPerson = (role: Job["people"][number]["role"]) => blank(person, { role });
export const blankLimiter = (chargePoints: readonly string[]) =>
  blank(limiter, { chargePoints: [...chargePoints] });
export const blankTransformer = (
  plain: Pick<z.infer<typeof currentTransformer>, "id" | "cable" | "conductor" | "channel">,
) => blank(currentTransformer, plain);
export const blankCircuitTest = (way: string) => blank(circuitTest, { way });

export interface JobStart {
  readonly id: string;
  readonly title: string;
  readonly jurisdiction: Job["site"]["jurisdiction"];
  readonly phases: 1 | 3;
}

/** The start of a survey with a load manager: a transformer on each line before anything splits off. */
export function blankManagedJob(start: JobStart): Job {
  const currentTransformers = linesOf(start).map((line) =>
    blankTransformer({
      id: `ct-${line.toLowerCase()}`,
      cable: "meter-to-board",
      conductor: line,
      channel: line,
    }),
  );
  return {
    ...blankJob(start),
    metering: { ...blankMetering(), currentTransformers },
    bus: blankBus(),
    limiter: blankLimiter(["charge-point"]),
  };
}

const linesOf = ({ phases }: JobStart): Job["cables"][number]["lines"] =>
  phases === 1 ? ["L1"] : ["L1", "L2", "L3"];

/** A job about which nothing is known but where it is: the start of a survey. */
export function blankJob(start: JobStart): Job {
  const shape = jobSchema.shape;
  const lines = linesOf(start);
  const join = (from: string, to: string, run: Job["cables"][number]["run"]) => ({
    id: `${from}-to-${to}`,
    from,
    to,
    lines,
    run,
  });
  return {
    format: FORMAT,
    formatVersion: FORMAT_VERSION,
    id: start.id,
    title: start.title,
    note: "",
    people: [
      blankPerson("customer"),
      blankPerson("designer"),
      blankPerson("installer"),
      blankPerson("inspector"),
    ],
    site: blank(shape.site, { jurisdiction: start.jurisdiction }),
    work: blank(shape.work, {}),
    supply: blank(shape.supply, { phases: start.phases }),
    earthing: blank(shape.earthing, {}),
    nodes: [
      blankNode("origin", { id: "origin", label: "Supply" }),
      blankNode("cut-out", { id: "cut-out", label: "Cut-out", overcurrent: blankOvercurrent() }),
      blankNode("meter", { id: "meter", label: "Meter" }),
      blankNode("board", { id: "board", label: "Consumer unit" }),
      blankNode("way", {
        id: "way-charge-point",
        label: "Way for charge point",
        overcurrent: blankOvercurrent(),
        residual: blankResidual(),
      }),
      blankNode("charge-point", { id: "charge-point", label: "Charge point" }),
    ],
    cables: [
      join("origin", "cut-out", "busbar"),
      join("cut-out", "meter", blankCableRun()),
      join("meter", "board", blankCableRun()),
      join("board", "way-charge-point", "busbar"),
      join("way-charge-point", "charge-point", blankCableRun()),
    ],
    demand: { recordings: [] },
    surge: blank(shape.surge, {}),
    metering: null,
    bus: null,
    limiter: null,
    tests: { deadProofs: [], circuits: [] },
    cars: [],
    documents: [],
  };
}
