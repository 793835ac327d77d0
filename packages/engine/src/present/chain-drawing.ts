import type { LocatedFact } from "../job/index.ts";
import type { JobOnTree } from "../supply/index.ts";
import { escapeMarkup } from "./escape.ts";

/** The metering chain as it is drawn: each transformer, then meter, bus, load manager, charge points. */
export interface DrawnChain {
  readonly transformers: readonly {
    readonly id: string;
    readonly conductor: string;
    readonly channel: string;
    /** Along the conductor, supply on the left; null while nobody has looked. */
    readonly arrow: "towards-load" | "towards-supply" | null;
    readonly details: readonly string[];
  }[];
  readonly boxes: readonly {
    readonly title: string;
    readonly details: readonly string[];
    readonly link: string;
  }[];
}

const known = <T>(fact: LocatedFact<T>, words: (value: T) => string): string[] =>
  fact.state === "known" ? [words(fact.value)] : [];

/** What is drawn of a job's chain; null where it has none. */
export function drawnChain({ job, tree }: JobOnTree): DrawnChain | null {
  const { metering, bus, limiter } = job;
  if (metering === null || metering.currentTransformers.length === 0) return null;
  const points = (limiter?.chargePoints ?? []).map((id) => tree.node(id).label);
  return {
    transformers: metering.currentTransformers.map((transformer) => ({
      id: transformer.id,
      conductor: `${transformer.conductor} of ${tree.cable(transformer.cable).name}`,
      channel: transformer.channel,
      arrow: transformer.arrow.state === "known" ? transformer.arrow.value : null,
      details: [
        [
          ...known(transformer.ratedPrimaryA, (amps) => `${amps} A`),
          ...known(transformer.output, (output) => output.replace("-", " ")),
          ...known(transformer.accuracyClass, (name) => `class ${name}`),
        ].join(", "),
        [
          ...known(transformer.leadLengthM, (metres) => `lead ${metres} m`),
          ...known(transformer.leadMm2, (mm2) => `${mm2} mm²`),
        ].join(", "),
      ].filter((line) => line !== ""),
    })),
    boxes: [
      {
        title: "Meter",
        details: [
          ...known(metering.meterClass, (name) =>
            name.toLowerCase().startsWith("class") ? name : `class ${name}`,
          ),
          ...known(metering.ratioSetting, (ratio) => `ratio ${ratio}`),
        ],
        link:
          bus === null
            ? "bus not recorded"
            : (known(bus.kind, (kind) => kind.replaceAll("-", " "))[0] ?? "bus not recorded"),
      },
      ...(limiter === null
        ? []
        : [
            {
              title: "Load manager",
              details: [
                ...known(limiter.limitA, (amps) => `limit ${amps} A`),
                ...known(limiter.fallbackA, (amps) => `fallback ${amps} A`),
              ],
              link: "offers current",
            },
            { title: points.join(", "), details: [], link: "" },
          ]),
    ],
  };
}

const WIDTH = 380;
const ROW = 78;
const BOX_X = 24;
const BOX_WIDTH = 332;
const LINE_HEIGHT = 15;

/**
 * The chain from conductor to charge point, an SVG string: conductors run across with the supply on the
 * left, secondaries go down to the meter. Same job, same bytes.
 */
export function chainDrawing({ transformers, boxes }: DrawnChain, title: string): string {
  const top = transformers.length * ROW + 16;
  const boxHeight = (details: readonly string[]): number => 30 + details.length * LINE_HEIGHT;
  let y = top;
  const parts = boxes.map(({ title: name, details, link }, index) => {
    const height = boxHeight(details);
    const at = y;
    y += height + 34;
    const isLast = index === boxes.length - 1;
    return [
      `<rect x="${BOX_X}" y="${at}" width="${BOX_WIDTH}" height="${height}"/>`,
      text(BOX_X + 10, at + 20, name, true),
      ...details.map((line, row) => text(BOX_X + 10, at + 20 + (row + 1) * LINE_HEIGHT, line)),
      ...(isLast
        ? []
        : [
            `<path d="M190 ${at + height} V${at + height + 34}" stroke-dasharray="5 4"/>`,
            text(200, at + height + 21, link),
          ]),
    ].join("\n");
  });
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${WIDTH} ${y}" class="supply" role="img" aria-labelledby="chain-title" fill="none" stroke="currentColor" stroke-width="1.6" font-family="system-ui, sans-serif" font-size="12">`,
    `<title id="chain-title">${escapeMarkup(title)}</title>`,
    ...transformers.map((transformer, index) =>
      drawnTransformer(transformer, index * ROW + 22, top, 26 - index * 8),
    ),
    ...parts,
    "</svg>",
    "",
  ].join("\n");
}

function drawnTransformer(
  { id, conductor, channel, arrow, details }: DrawnChain["transformers"][number],
  y: number,
  meterTop: number,
  leadX: number,
): string {
  const centre = 60;
  const head =
    arrow === null
      ? text(centre - 4, y - 14, "?", true)
      : arrow === "towards-load"
        ? `<path d="M${centre - 16} ${y - 16} H${centre + 16} m-6 -4 l6 4 l-6 4"/>`
        : `<path d="M${centre + 16} ${y - 16} H${centre - 16} m6 -4 l-6 4 l6 4"/>`;
  return [
    `<path d="M8 ${y} H${WIDTH - 8}" stroke-width="2.4"/>`,
    `<circle cx="${centre}" cy="${y}" r="9"/>`,
    head,
    `<path d="M${centre} ${y + 9} V${y + 24} H${leadX + 20} V${meterTop}"/>`,
    text(84, y - 8, `${id} on ${conductor}`, true),
    ...details.map((line, row) => text(84, y + 17 + row * LINE_HEIGHT, line)),
    text(84, y + 17 + details.length * LINE_HEIGHT, `S1, S2 to input ${channel}`),
  ].join("\n");
}

const text = (x: number, y: number, words: string, isTitle = false): string =>
  `<text x="${x}" y="${y}" fill="currentColor" stroke="none"${isTitle ? ' font-weight="600"' : ""}>${escapeMarkup(words)}</text>`;

/** The drawing in words, line by line. */
export const chainOutline = ({ transformers, boxes }: DrawnChain): readonly string[] => [
  ...transformers.map(
    ({ id, conductor, channel, arrow, details }) =>
      `${id} on ${conductor}, ${arrow === null ? "direction not looked at" : `arrow ${arrow.replace("-", " ")}`}${details.map((line) => `, ${line}`).join("")}, to meter input ${channel}`,
  ),
  ...boxes.map(
    ({ title: name, details, link }) =>
      `${name}${details.map((line) => `, ${line}`).join("")}${link === "" ? "" : `; then ${link}`}`,
  ),
];
