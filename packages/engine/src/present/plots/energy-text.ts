import { countText, numberText } from "./number-text.ts";
import type { PlotNames, PlotText } from "./plot.ts";
import { type Samples, sampleAt } from "./samples.ts";

export interface EnergyPerSession extends PlotNames {
  /** NaN where it is not known what the session wanted. [kWh] */
  readonly wantedKwh: Samples;
  /** NaN where it is not known what it got. [kWh] */
  readonly deliveredKwh: Samples;
  /** A short name of each session, or null where they are numbered. */
  readonly names: readonly string[] | null;
}

/** A session of which both figures are known. */
export interface Session {
  readonly index: number;
  readonly wantedKwh: number;
  readonly deliveredKwh: number;
  /** Delivered by wanted, 0 to 1; null where nothing was wanted. */
  readonly share: number | null;
}

/** Energies are sums of many small steps: what they lose in adding is no energy missing. */
const SUM_SLACK = 1e-9;

export function sessionsOf({ wantedKwh, deliveredKwh }: EnergyPerSession): readonly Session[] {
  const sessions: Session[] = [];
  for (let index = 0; index < Math.max(wantedKwh.length, deliveredKwh.length); index++) {
    const [wanted, delivered] = [sampleAt(wantedKwh, index), sampleAt(deliveredKwh, index)];
    if (wanted === null || delivered === null) continue;
    const share = delivered / wanted;
    sessions.push({
      index,
      wantedKwh: wanted,
      deliveredKwh: delivered,
      share: wanted > 0 ? (share >= 1 - SUM_SLACK ? 1 : Math.max(0, share)) : null,
    });
  }
  return sessions;
}

/** What a session is called: its name, or its number from 1. */
export const sessionName = (names: readonly string[] | null, { index }: Session): string =>
  names?.[index] ?? String(index + 1);

/** Sessions that are listed one by one; more are told in groups. */
const MOST_ROWS = 20;
const GROUP = 10;

export const SHARE_TICKS = [20, 50, 80, 90, 95];

export function energyText(
  { wantedKwh, deliveredKwh, names }: EnergyPerSession,
  sessions: readonly Session[],
  isBars: boolean,
): PlotText {
  const sum = (part: (session: Session) => number): number =>
    sessions.reduce((total, session) => total + part(session), 0);
  const shared = sessions.filter((session) => session.share !== null);
  const shareOf = ({ share }: Session): number => share ?? 0;
  const full = shared.filter((session) => shareOf(session) === 1).length;
  const least = shared.reduce<Session | undefined>(
    (lowest, session) => (lowest === undefined || shareOf(session) < shareOf(lowest) ? session : lowest),
    undefined,
  );
  const absent = Math.max(wantedKwh.length, deliveredKwh.length) - sessions.length;
  return {
    sentences: [
      sessions.length === 0
        ? "There is no session to show."
        : `${countText(sessions.length, "session")} wanted ${kwh(sum((session) => session.wantedKwh))} and got ${kwh(sum((session) => session.deliveredKwh))}.`,
      ...(least === undefined
        ? []
        : [
            `All that was wanted: ${numberText(full, 0)} of ${countText(shared.length, "session")}.`,
            full === shared.length
              ? "None lacks energy."
              : `The least is ${percent(shareOf(least))}, in session ${sessionName(names, least)}, which lacks ${kwh(least.wantedKwh - least.deliveredKwh)}.`,
          ]),
      ...(shared.length < sessions.length
        ? [`Wanted nothing, and so without a share: ${numberText(sessions.length - shared.length, 0)}.`]
        : []),
      ...(absent > 0 ? [`Left out, one figure or both not known: ${numberText(absent, 0)}.`] : []),
    ],
    table: !isBars
      ? shareTable(shared.map(shareOf))
      : sessions.length > MOST_ROWS
        ? groupTable(sessions, names)
        : sessionTable(sessions, names),
  };
}

const sessionTable = (sessions: readonly Session[], names: readonly string[] | null): PlotText["table"] =>
  sessions.length === 0
    ? null
    : {
        head: ["Session", "Wanted", "Delivered", "Share"],
        rows: sessions.map((session) => [
          sessionName(names, session),
          kwh(session.wantedKwh),
          kwh(session.deliveredKwh),
          session.share === null ? "–" : percent(session.share),
        ]),
      };

/** Sessions in tens: a table that prints in a few lines. */
function groupTable(sessions: readonly Session[], names: readonly string[] | null): PlotText["table"] {
  const groups = Array.from({ length: Math.ceil(sessions.length / GROUP) }, (_, group) =>
    sessions.slice(group * GROUP, (group + 1) * GROUP),
  );
  const sum = (group: readonly Session[], of: "wantedKwh" | "deliveredKwh"): string =>
    kwh(group.reduce((total, session) => total + session[of], 0));
  return {
    head: ["Sessions", "Wanted", "Delivered", "Got all they wanted"],
    rows: groups.map((group) => {
      const [first, last] = [group[0], group.at(-1)].map((end) => sessionName(names, end as Session));
      const full = group.filter(({ share }) => share === null || share === 1).length;
      return [
        first === last ? `${first}` : `${first} to ${last}`,
        sum(group, "wantedKwh"),
        sum(group, "deliveredKwh"),
        `${full} of ${group.length}`,
      ];
    }),
  };
}

const shareTable = (shares: readonly number[]): PlotText["table"] =>
  shares.length === 0
    ? null
    : {
        head: ["Share of the energy wanted, at least", "Sessions"],
        rows: [...SHARE_TICKS, 100].map((least) => [
          numberText(least, 0, "nearest", "%"),
          percent(shares.filter((share) => share >= least / 100).length / shares.length),
        ]),
      };

const kwh = (energyKwh: number): string => numberText(energyKwh, 1, "nearest", "kWh");

/** A share, rounded down: only what is whole reads as 100 %. */
const percent = (share: number): string => numberText(share * 100, 1, "down", "%");
