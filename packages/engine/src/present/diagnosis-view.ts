import type {
  DiagnosedClass,
  Diagnosis,
  FaultCatalogue,
  Measurement,
  NamedFault,
  Proof,
  ProvedProperty,
  RankedMeasurement,
  WatchedReading,
} from "../proving/index.ts";
import { simplest } from "../proving/index.ts";
import type { Line } from "../quantities/index.ts";
import { designedPlaceWords } from "./designed-place-words.ts";
import { faultsWords } from "./fault-words.ts";
import { withUnit } from "./format.ts";

/** A diagnosis as it is shown: everything decided, nothing drawn. */
export interface DiagnosisView {
  readonly tone: "pass" | "fail" | "unknown";
  readonly title: string;
  readonly sentences: readonly string[];
  readonly causes: readonly CauseView[];
  /** Causes on the bus or in time, each with its cure. */
  readonly busCauses: readonly string[];
  /** Step, place, as read, and what a sound chain would show; with whether it lies within. */
  readonly beside: readonly { readonly cells: readonly string[]; readonly isWithin: boolean }[];
  /** What speaks against a sound chain, reading by reading. */
  readonly contradictions: readonly string[];
  readonly estimates: readonly string[];
  readonly next: readonly NextView[];
  /** Odd readings, and what was done about each. */
  readonly remarks: readonly string[];
}

/** One cause, with all that these readings cannot part from it. */
export interface CauseView {
  readonly share: string;
  readonly words: string;
  readonly ids: readonly string[];
  readonly alike: readonly string[];
  readonly moreAlike: number;
  readonly looksLike: string | null;
  readonly partedBy: string | null;
  readonly danger: string | null;
  readonly cure: string | null;
}

export interface NextView {
  readonly words: string;
  readonly minutes: string;
  readonly worth: string;
}

const SHOWN_CAUSES = 5;
const SHOWN_ALIKE = 6;

export function diagnosisView(
  diagnosis: Diagnosis,
  next: readonly RankedMeasurement[],
  catalogue: FaultCatalogue,
): DiagnosisView {
  const { classes, somethingElse, isTold, weighing } = diagnosis;
  const [top] = classes;
  const causes = classes
    .filter(({ probability }) => probability >= 0.005)
    .slice(0, SHOWN_CAUSES)
    .map((group) => causeView(group, catalogue));
  const head = headline(top, somethingElse, isTold, catalogue);
  return {
    ...head,
    sentences: [...head.sentences, ...designedPlaceWords(diagnosis.design.places)],
    causes,
    busCauses: diagnosis.busCauses.slice(0, SHOWN_CAUSES).map(({ id, probability }) => {
      const { name, partedBy, cure } = catalogue[id];
      return `${percent(probability)} · ${name} (${id}). ${partedBy} ${cure}`;
    }),
    beside: diagnosis.besideSound.map((item) => besideView(item, diagnosis)),
    contradictions: diagnosis.contradictions.slice(0, 12).map((item) => contradictionWords(item, diagnosis)),
    estimates: diagnosis.estimates.map(
      ({ channel, gain, angleDeg, buildingW }) =>
        `${channel}: shows ${range(gain, "", 2)} times its line's current, ${range(angleDeg, "°", 1)} ahead; the building's own load on it is ${range(buildingW, "W", 0)}`,
    ),
    next: next.slice(0, 4).map(nextView),
    remarks: [
      ...(weighing.isRestless
        ? ["The building's own load moved a lot between steps: switch it off, or repeat each step."]
        : []),
      ...diagnosis.remarks.map(({ path, what, done }) => `${path}: ${what}; ${done}.`),
    ],
  };
}

function headline(
  top: DiagnosedClass | undefined,
  somethingElse: number,
  isTold: boolean,
  catalogue: FaultCatalogue,
): Pick<DiagnosisView, "tone" | "title" | "sentences"> {
  if (top === undefined || somethingElse > 0.5)
    return {
      tone: "unknown",
      title: "Nothing in the catalogue explains these readings.",
      sentences: ["Check the readings and the steps; look at the chain itself before anything is set."],
    };
  const [first] = top.members;
  const faults = first?.faults ?? [];
  const words = faultsWords(faults, catalogue);
  const others = simplest(top.members).length - 1;
  if (!isTold)
    return {
      tone: "unknown",
      title: "These readings do not tell it yet.",
      sentences: [
        faults.length === 0 && top.probability >= 0.5
          ? `They fit a sound chain, and ${others} ${others === 1 ? "fault" : "faults"} as well that such readings cannot show. Take the next measurement.`
          : `Likeliest is ${words}, ${percent(top.probability)}. Take the next measurement before setting anything.`,
      ],
    };
  if (faults.length === 0)
    return {
      tone: "pass",
      title: "The readings fit a sound chain.",
      sentences: [
        others === 0
          ? `${percent(top.probability)} sure of it. Run the proof to see what is proved and what is not.`
          : `They also fit ${others} ${others === 1 ? "fault" : "faults"} that such readings cannot show: this is not a proof.`,
      ],
    };
  return {
    tone: "fail",
    title: `Found: ${words}.`,
    sentences: [
      others === 0
        ? `${percent(top.probability)} sure of it.`
        : `${percent(top.probability)} sure that it is this or ${others === 1 ? "another that reads" : `one of ${others} others that read`} alike.`,
    ],
  };
}

function causeView(group: DiagnosedClass, catalogue: FaultCatalogue): CauseView {
  const [first, ...rest] = simplest(group.members);
  const faults: readonly NamedFault[] = first?.faults ?? [];
  const [main] = faults;
  const entries = faults.map(({ id }) => catalogue[id]);
  const alike = rest.map((member) => faultsWords(member.faults, catalogue));
  const dangers = entries.flatMap(({ danger }) => (danger === null ? [] : [danger]));
  return {
    share: percent(group.probability),
    words: faultsWords(faults, catalogue),
    ids: faults.map(({ id }) => id),
    alike: alike.slice(0, SHOWN_ALIKE),
    moreAlike: Math.max(0, alike.length - SHOWN_ALIKE),
    looksLike: main === undefined ? null : catalogue[main.id].looksLike,
    partedBy: main === undefined ? null : catalogue[main.id].partedBy,
    danger: dangers.length === 0 ? null : [...new Set(dangers)].join(" "),
    cure: entries.length === 0 ? null : [...new Set(entries.map(({ cure }) => cure))].join(" "),
  };
}

const UNITS = { P: "W", "total P": "W", Q: "var", "total Q": "var", I: "A", clamp: "A" } as const;

function besideView(item: WatchedReading, { readings }: Diagnosis): DiagnosisView["beside"][number] {
  const unit = UNITS[item.quantity];
  const decimals = unit === "A" ? 1 : 0;
  const isTotal = item.quantity.startsWith("total");
  const place = isTotal ? "total" : `L${item.index + 1}${item.quantity === "clamp" ? " clamp" : ""}`;
  const twice = 2 * Math.sqrt(item.variance);
  return {
    cells: [
      readings.steps[item.step]?.id ?? String(item.step + 1),
      place,
      withUnit(item.value, unit, decimals),
      `${withUnit(item.expected - twice, "", decimals)} to ${withUnit(item.expected + twice, unit, decimals)}`,
    ],
    isWithin: Math.abs(item.value - item.expected) <= twice,
  };
}

function contradictionWords(item: WatchedReading, diagnosis: Diagnosis): string {
  const [step, place, read, band] = besideView(item, diagnosis).cells;
  return `${step}, ${place}: read ${read}; a sound chain would show ${band}`;
}

function nextView({ measurement, information, perMinute }: RankedMeasurement): NextView {
  return {
    words: measurementWords(measurement),
    minutes: `${measurement.minutes} min`,
    worth: `${information.toFixed(2)} bit, ${perMinute.toFixed(2)} bit/min`,
  };
}

/** What to do, in the electrician's words, with the safer way where one could be hurt. */
export function measurementWords({ action, line, offeredA }: Measurement): string {
  switch (action) {
    case "read-all":
      return "Read volts, amperes, watts and vars of every channel, signs included.";
    case "charge":
      return `The load manager is not proved yet: switch large loads off and keep clear of the main fuse's rating. Then let the car charge at ${offeredA} A, or as much as it takes, on ${line} alone, wait until it holds, and read again.`;
    case "switch-load":
      return `Switch on a heater or kettle of known power on ${line}, plugged in and not wired, and read again.`;
    case "clamp":
      return `Clamp the whole insulated tail of ${line} at the meter and compare. Touch no live part; where it cannot be reached in its insulation, leave it.`;
    case "read-plate":
      return "Read the plate of each current transformer and the ratio set in the meter, and photograph both. Open nothing live.";
  }
}

/** A proof as it is shown, line by line. */
export interface ProofView {
  readonly tone: "pass" | "fail" | "unknown";
  readonly title: string;
  readonly mark: string;
  readonly rows: readonly {
    readonly channel: string;
    readonly words: string;
    readonly isProved: boolean;
    readonly note: string;
  }[];
}

const PROPERTY_WORDS: Readonly<Record<ProvedProperty["property"], string>> = {
  "own-line": "watches its own line and no other",
  direction: "is the right way round",
  "sees-building": "sees the building",
  "sees-charge-point": "sees the charge points that charged",
  ratio: "has the right ratio",
  decoding: "is read with the right scale, sign and word order",
};

export function proofView(proof: Proof, catalogue: FaultCatalogue): ProofView {
  const open = proof.properties.filter(({ isProved }) => !isProved).length;
  const title = !proof.isOfThisChain
    ? "Expired: these readings were taken of another chain than the job now has. Take them again."
    : open === 0
      ? "Proved: on every line the meter sees what the main fuse carries."
      : `${open} of ${proof.properties.length} properties are not proved.`;
  return {
    tone: proof.isComplete ? "pass" : "unknown",
    title,
    mark: proof.mark,
    rows: proof.properties.map(
      ({ channel, property, isProved, stands, gain, missedByDesign, isBeyondReadings }) => ({
        channel,
        words: PROPERTY_WORDS[property],
        isProved: isProved && proof.isOfThisChain,
        note: [
          missedByDesign.length === 0
            ? ""
            : `the design itself misses ${missedByDesign.join(", ")}; readings cannot prove coverage`,
          isBeyondReadings
            ? "one transformer shows none of the other lines: follow its conductor to the main fuse by eye"
            : "",
          gain === null ? "" : `between ${gain[0].toFixed(2)} and ${gain[1].toFixed(2)} times`,
          stands === null || isProved
            ? ""
            : stands.length === 0
              ? "the readings leave it too wide"
              : `not ruled out: ${faultsWords(
                  stands.map(({ fault }) => ({
                    id: fault.id,
                    channels:
                      "channels" in fault ? fault.channels.map((c) => proof.channels[c - 1] as Line) : [],
                    fault,
                  })),
                  catalogue,
                )}`,
        ]
          .filter((part) => part !== "")
          .join("; "),
      }),
    ),
  };
}

const percent = (share: number): string =>
  share > 0.995 ? "over 99 %" : share < 0.01 ? "under 1 %" : `${Math.floor(share * 100)} %`;

const range = ([low, high]: readonly [number, number], unit: string, decimals: number): string =>
  `${withUnit(low, "", decimals)} to ${withUnit(high, unit, decimals)}`;
