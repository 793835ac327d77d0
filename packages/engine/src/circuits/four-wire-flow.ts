/**
 * Unbalanced flow in a radial three-phase network with neutral: the voltage at every node and the
 * current in every conductor.
 *
 * Each section has a line impedance and a neutral impedance, without coupling between conductors and
 * without capacitance. The neutral is joined to earth at the source only, so its potential travels with
 * the unbalance. Backward sweep sums currents, forward sweep drops voltages, until nothing moves.
 *
 * Signs: section currents positive from source to load; the neutral's is the current returning; drops
 * may be negative, and a lightly loaded line may rise above the source. Phasors as in `quantities`.
 *
 * Time-critical: two compilations of typed arrays, no allocation in the sweeps.
 *
 * @module
 */
import {
  type Complex,
  EngineError,
  LINES,
  type Line,
  linePhasor,
  requireInRange,
} from "../quantities/index.ts";

export type LoadModel = "constant-current" | "constant-impedance" | "constant-power";

export interface FourWireSection {
  readonly id: string;
  readonly from: string;
  readonly to: string;
  readonly lines: readonly Line[];
  readonly lineOhm: Complex;
  readonly neutralOhm: Complex;
}

/** A load between one line and the neutral of its node; what it draws at exactly the nominal voltage. */
export interface FourWireLoad {
  readonly node: string;
  readonly line: Line;
  readonly model: LoadModel;
  /** Positive draws from the network, negative feeds it. [W] */
  readonly activePowerW: number;
  /** Positive lags. [var] */
  readonly reactivePowerVar: number;
}

export interface FourWireNetwork {
  /** Line to neutral at the source. [V] */
  readonly nominalVoltageV: number;
  readonly source: string;
  readonly sections: readonly FourWireSection[];
  readonly loads: readonly FourWireLoad[];
}

export interface FourWireFlow {
  readonly iterations: number;
  /** Line to local neutral. [V] Undefined for a line that does not reach the node. */
  voltageV(node: string, line: Line): Complex | undefined;
  /** Neutral of the node to neutral of the source. [V] */
  neutralV(node: string): Complex;
  /** Current of a conductor of a section. [A] */
  currentA(section: string, conductor: Line | "N"): Complex | undefined;
}

/** Voltages have settled when none moves by more than this share of nominal in one sweep. */
const SETTLED = 1e-13;
const MAX_SWEEPS = 1000;

/**
 * Solves a radial four-wire network.
 *
 * @returns null when the sweeps do not settle: the network cannot carry that constant power.
 * @throws EngineError OUT_OF_DOMAIN for a nominal voltage outside 10 to 1000 V.
 * @throws EngineError NOT_IN_TREE when a section or a load hangs on a node that nothing feeds.
 */
export function fourWireFlow(network: FourWireNetwork): FourWireFlow | null {
  return new Compiled(network).solve();
}

const CONDUCTORS = 4; // three lines, then the neutral

class Compiled {
  readonly #network: FourWireNetwork;
  readonly #nodes = new Map<string, number>();
  readonly #sections = new Map<string, number>();
  /** Sections so that each stands after the one that feeds it. */
  readonly #ordered: readonly FourWireSection[];
  readonly #from: Int32Array;
  readonly #carries: Uint8Array;
  /** Per section and conductor: impedance, current; per node and conductor: voltage to the source neutral. */
  readonly #zRe: Float64Array;
  readonly #zIm: Float64Array;
  readonly #iRe: Float64Array;
  readonly #iIm: Float64Array;
  readonly #vRe: Float64Array;
  readonly #vIm: Float64Array;
  readonly #loadNode: Int32Array;
  readonly #loadLine: Int32Array;
  readonly #loadModel: Uint8Array;
  readonly #loadP: Float64Array;
  readonly #loadQ: Float64Array;

  constructor(network: FourWireNetwork) {
    requireInRange("nominalVoltageV", network.nominalVoltageV, 10, 1000);
    this.#network = network;
    this.#ordered = inFeedOrder(network);
    this.#nodes.set(network.source, 0);
    this.#ordered.forEach((section, index) => {
      this.#nodes.set(section.to, index + 1);
      this.#sections.set(section.id, index);
    });
    const count = this.#ordered.length;
    const cells = count * CONDUCTORS;
    this.#from = Int32Array.from(this.#ordered, (section) => this.#nodes.get(section.from) ?? 0);
    this.#carries = new Uint8Array(cells + CONDUCTORS).fill(1, 0, CONDUCTORS);
    this.#zRe = new Float64Array(cells);
    this.#zIm = new Float64Array(cells);
    this.#iRe = new Float64Array(cells);
    this.#iIm = new Float64Array(cells);
    this.#vRe = new Float64Array(cells + CONDUCTORS);
    this.#vIm = new Float64Array(cells + CONDUCTORS);
    this.#ordered.forEach((section, index) => {
      for (let conductor = 0; conductor < CONDUCTORS; conductor++) {
        const ohm = conductor === 3 ? section.neutralOhm : section.lineOhm;
        this.#zRe[index * CONDUCTORS + conductor] = ohm.re;
        this.#zIm[index * CONDUCTORS + conductor] = ohm.im;
        const line = LINES[conductor];
        const carries = line === undefined || section.lines.includes(line);
        this.#carries[(index + 1) * CONDUCTORS + conductor] = carries ? 1 : 0;
      }
    });
    for (let node = 0; node <= count; node++) {
      LINES.forEach((line, conductor) => {
        const phasor = linePhasor(line, network.nominalVoltageV);
        this.#vRe[node * CONDUCTORS + conductor] = phasor.re;
        this.#vIm[node * CONDUCTORS + conductor] = phasor.im;
      });
    }
    const { loads } = network;
    this.#loadNode = Int32Array.from(loads, (load) => this.#nodeOfLoad(load));
    this.#loadLine = Int32Array.from(loads, (load) => LINES.indexOf(load.line));
    this.#loadModel = Uint8Array.from(loads, (load) => MODELS.indexOf(load.model));
    this.#loadP = Float64Array.from(loads, (load) => load.activePowerW);
    this.#loadQ = Float64Array.from(loads, (load) => load.reactivePowerVar);
  }

  solve(): FourWireFlow | null {
    for (let sweep = 1; sweep <= MAX_SWEEPS; sweep++) {
      this.#sweepBack();
      const moved = this.#sweepForward();
      if (!Number.isFinite(moved)) return null;
      if (moved <= SETTLED * this.#network.nominalVoltageV) return this.#flow(sweep);
    }
    return null;
  }

  /** Load currents from the present voltages, summed towards the source. */
  #sweepBack(): void {
    const [iRe, iIm, vRe, vIm] = [this.#iRe, this.#iIm, this.#vRe, this.#vIm];
    const nominal = this.#network.nominalVoltageV;
    iRe.fill(0);
    iIm.fill(0);
    for (let load = 0; load < this.#loadNode.length; load++) {
      const node = this.#loadNode[load] as number;
      if (node === 0) continue;
      const line = this.#loadLine[load] as number;
      const at = node * CONDUCTORS;
      const uRe = (vRe[at + line] as number) - (vRe[at + 3] as number);
      const uIm = (vIm[at + line] as number) - (vIm[at + 3] as number);
      const square = uRe * uRe + uIm * uIm;
      const model = this.#loadModel[load];
      // I = conj(S / V), with S following the voltage by the model's power.
      const scale =
        model === 0 ? 1 / (nominal * Math.sqrt(square)) : model === 1 ? 1 / (nominal * nominal) : 1 / square;
      const p = (this.#loadP[load] as number) * scale;
      const q = (this.#loadQ[load] as number) * scale;
      const cRe = p * uRe + q * uIm;
      const cIm = p * uIm - q * uRe;
      const section = (node - 1) * CONDUCTORS;
      iRe[section + line] = (iRe[section + line] as number) + cRe;
      iIm[section + line] = (iIm[section + line] as number) + cIm;
      iRe[section + 3] = (iRe[section + 3] as number) + cRe;
      iIm[section + 3] = (iIm[section + 3] as number) + cIm;
    }
    for (let section = this.#from.length - 1; section >= 0; section--) {
      const upstream = (this.#from[section] as number) - 1;
      if (upstream < 0) continue;
      for (let conductor = 0; conductor < CONDUCTORS; conductor++) {
        const [here, there] = [section * CONDUCTORS + conductor, upstream * CONDUCTORS + conductor];
        iRe[there] = (iRe[there] as number) + (iRe[here] as number);
        iIm[there] = (iIm[there] as number) + (iIm[here] as number);
      }
    }
  }

  /** Voltages from the present currents, from the source outwards. Returns the largest change. [V] */
  #sweepForward(): number {
    const [iRe, iIm, vRe, vIm, zRe, zIm] = [this.#iRe, this.#iIm, this.#vRe, this.#vIm, this.#zRe, this.#zIm];
    let moved = 0;
    for (let section = 0; section < this.#from.length; section++) {
      const above = (this.#from[section] as number) * CONDUCTORS;
      for (let conductor = 0; conductor < CONDUCTORS; conductor++) {
        const cell = section * CONDUCTORS + conductor;
        const at = cell + CONDUCTORS;
        const [re, im] = [iRe[cell] as number, iIm[cell] as number];
        const [r, x] = [zRe[cell] as number, zIm[cell] as number];
        // The neutral's current returns: its potential rises along the way out.
        const sign = conductor === 3 ? 1 : -1;
        const newRe = (vRe[above + conductor] as number) + sign * (r * re - x * im);
        const newIm = (vIm[above + conductor] as number) + sign * (r * im + x * re);
        moved = Math.max(moved, Math.abs(newRe - (vRe[at] as number)), Math.abs(newIm - (vIm[at] as number)));
        if (Number.isNaN(newRe)) return Number.NaN;
        vRe[at] = newRe;
        vIm[at] = newIm;
      }
    }
    return moved;
  }

  #flow(iterations: number): FourWireFlow {
    const at = (node: string, conductor: number): Complex => {
      const cell = this.#nodeIndex(node) * CONDUCTORS + conductor;
      return { re: this.#vRe[cell] as number, im: this.#vIm[cell] as number };
    };
    return {
      iterations,
      voltageV: (node, line) => {
        const conductor = LINES.indexOf(line);
        if (this.#carries[this.#nodeIndex(node) * CONDUCTORS + conductor] === 0) return undefined;
        const [v, n] = [at(node, conductor), at(node, 3)];
        return { re: v.re - n.re, im: v.im - n.im };
      },
      neutralV: (node) => at(node, 3),
      currentA: (section, conductor) => {
        const index = this.#sections.get(section);
        if (index === undefined) throw notFed("section", section);
        const cell = index * CONDUCTORS + (conductor === "N" ? 3 : LINES.indexOf(conductor));
        if (this.#carries[cell + CONDUCTORS] === 0) return undefined;
        return { re: this.#iRe[cell] as number, im: this.#iIm[cell] as number };
      },
    };
  }

  #nodeIndex(node: string): number {
    const index = this.#nodes.get(node);
    if (index === undefined) throw notFed("node", node);
    return index;
  }

  #nodeOfLoad(load: FourWireLoad): number {
    const node = this.#nodeIndex(load.node);
    if (this.#carries[node * CONDUCTORS + LINES.indexOf(load.line)] === 0)
      throw notFed("line", `${load.line} at ${load.node}`);
    return node;
  }
}

const MODELS: readonly LoadModel[] = ["constant-current", "constant-impedance", "constant-power"];

const notFed = (what: string, id: string): EngineError =>
  new EngineError(
    "NOT_IN_TREE",
    `Nothing in the network feeds the ${what} "${id}". Add the section that does.`,
    { id },
  );

/** Sections in an order in which each comes after the one that feeds it. */
function inFeedOrder(network: FourWireNetwork): readonly FourWireSection[] {
  const below = new Map<string, FourWireSection[]>();
  for (const section of network.sections) {
    const siblings = below.get(section.from);
    if (siblings) siblings.push(section);
    else below.set(section.from, [section]);
  }
  const ordered: FourWireSection[] = [];
  const waiting = [network.source];
  for (let node = waiting.shift(); node !== undefined; node = waiting.shift()) {
    for (const section of below.get(node) ?? []) {
      ordered.push(section);
      waiting.push(section.to);
    }
    if (ordered.length > network.sections.length) break;
  }
  if (ordered.length !== network.sections.length) {
    const reached = new Set(ordered);
    const stray = network.sections.find((section) => !reached.has(section)) ?? network.sections[0];
    throw notFed("section", stray?.id ?? "");
  }
  return ordered;
}
