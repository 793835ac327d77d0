/**
 * What each charging session wanted and what it got: bars where there are few sessions, and where there are
 * many the share of sessions that got at least so much of what they wanted.
 *
 * A session that got more than it wanted lacks nothing. A session that wanted nothing has no share.
 *
 * @module
 */
import { type Field, FOOT, horizontalAxis, level, roomForTicks, upright, verticalAxis } from "./axes.ts";
import {
  type EnergyPerSession,
  energyText,
  type Session,
  SHARE_TICKS,
  sessionName,
  sessionsOf,
} from "./energy-text.ts";
import { hatching, outline } from "./hatch.ts";
import { evenlyThinned, type Label, label } from "./label.ts";
import { boxSwatch, legend } from "./legend.ts";
import { linePath } from "./paths.ts";
import { FONT_SIZE, PLOT_WIDTH, type Plot, plot, ROW } from "./plot.ts";
import { present } from "./samples.ts";
import { linearScale } from "./scale.ts";
import { GREY, path, STROKES } from "./strokes.ts";
import { shortened } from "./text-width.ts";

const MAX_BARS = 60;
const HEIGHT = 170;

export function energyPerSession(energy: EnergyPerSession): Plot {
  const sessions = sessionsOf(energy);
  const sessionCount = Math.max(energy.wantedKwh.length, energy.deliveredKwh.length);
  const isBars = sessionCount <= MAX_BARS;
  const { heightPx, parts } = isBars ? bars(energy, sessions, sessionCount) : shares(sessions);
  return plot(
    energy,
    { heightPx, parts: parts.filter((part) => part !== "") },
    energyText(energy, sessions, isBars),
  );
}

function bars({ names }: EnergyPerSession, sessions: readonly Session[], sessionCount: number) {
  const key = legend(
    [
      { text: "delivered", swatch: boxSwatch("outline", "grey") },
      { text: "wanted, not delivered", swatch: boxSwatch("outline", "rising") },
    ],
    2,
  );
  const top = key.bottomPx + ROW + 4;
  const bottom = top + HEIGHT;
  const all = sessions.flatMap(({ wantedKwh, deliveredKwh }) => [wantedKwh, deliveredKwh]);
  const scale = linearScale(
    { min: Math.min(0, ...all), max: Math.max(0, ...all), maxCount: 8 },
    { fromPx: bottom, toPx: top },
  );
  const field: Field = { left: roomForTicks(scale.ticks), right: PLOT_WIDTH - 8, top, bottom };
  const pitch = (field.right - field.left) / Math.max(1, sessionCount);
  const width = Math.min(pitch * 0.8, 40);
  const centre = (index: number): number => field.left + (index + 0.5) * pitch;
  const bar = ({ index, wantedKwh, deliveredKwh }: Session): readonly string[] => {
    const box = (fromKwh: number, toKwh: number) => {
      const [a, b] = [scale.at(fromKwh), scale.at(toKwh)];
      return { x: centre(index) - width / 2, y: Math.min(a, b), width, height: Math.abs(a - b) };
    };
    const missing = box(Math.max(0, deliveredKwh), Math.max(0, wantedKwh, deliveredKwh));
    return [
      outline(box(0, deliveredKwh), GREY),
      path(hatching(missing, { px: 4, slant: "rising" }), STROKES.hatch),
      outline(box(0, Math.max(wantedKwh, deliveredKwh)), ' stroke-width="0.8"'),
    ];
  };
  return {
    heightPx: bottom + 2 * ROW + 8,
    parts: [
      ...key.parts,
      label({ x: 4, y: key.bottomPx + FONT_SIZE, text: "energy [kWh]" }),
      ...verticalAxis(scale, field),
      path(level(field, scale.at(0))),
      ...sessions.flatMap(bar),
      ...evenlyThinned(
        sessions.map(
          (session): Label => ({
            x: centre(session.index),
            y: bottom + FOOT,
            text: shortened(sessionName(names, session), Math.max(80, pitch - 6)),
            anchor: "middle",
          }),
        ),
      ).map(label),
      label({
        x: (field.left + field.right) / 2,
        y: bottom + 2 * ROW + 1,
        text: sessions.length === 0 ? "no session" : "session",
        anchor: "middle",
      }),
    ],
  };
}

function shares(sessions: readonly Session[]) {
  const sorted = present(sessions.map(({ share }) => share ?? Number.NaN)).sort();
  const top = 2 + ROW + 4;
  const bottom = top + HEIGHT;
  const scale = linearScale({ min: 0, max: 100, maxCount: 6 }, { fromPx: bottom, toPx: top });
  const field: Field = { left: roomForTicks(scale.ticks), right: PLOT_WIDTH - 20, top, bottom };
  const across = linearScale({ min: 0, max: 100, maxCount: 11 }, { fromPx: field.left, toPx: field.right });
  const columnCount = Math.round(field.right - field.left);
  let below = 0;
  const curve = Array.from({ length: columnCount + 1 }, (_, column) => {
    const share = column / columnCount;
    while (below < sorted.length && (sorted[below] ?? 0) < share) below++;
    return [across.at(share * 100), scale.at((100 * (sorted.length - below)) / sorted.length)] as const;
  });
  return {
    heightPx: bottom + 2 * ROW + 8,
    parts: [
      label({ x: 4, y: 2 + FONT_SIZE, text: "sessions that got at least so much [%]" }),
      ...verticalAxis(scale, field),
      path(SHARE_TICKS.map((percent) => upright(field, across.at(percent))).join(""), STROKES.grid),
      ...horizontalAxis(across, field),
      ...(sorted.length === 0
        ? []
        : [
            path(`${linePath([...curve, [field.right, bottom], [field.left, bottom]])}Z`, GREY),
            path(linePath(curve), STROKES.mean),
          ]),
      label({
        x: (field.left + field.right) / 2,
        y: bottom + 2 * ROW + 1,
        text: "share of the energy wanted [%]",
        anchor: "middle",
      }),
    ],
  };
}
