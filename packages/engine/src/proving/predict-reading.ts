import { add, type Complex, conjugate, divide, magnitude, multiply, subtract } from "../quantities/index.ts";
import type { Chain } from "./chain.ts";
import { decodedReading } from "./decoding.ts";
import type { FaultOf } from "./fault.ts";
import type { Matrix } from "./matrix.ts";
import type { MeterReading } from "./meter-reading.ts";
import type { SiteState } from "./site-state.ts";

const NOTHING: Complex = { re: 0, im: 0 };
const scaled = (a: Complex, by: number): Complex => ({ re: a.re * by, im: a.im * by });
const sum = (values: readonly Complex[]): Complex => values.reduce(add, NOTHING);
const at = (values: readonly Complex[], index: number): Complex => values[index] ?? NOTHING;
const combined = (matrix: Matrix, values: readonly Complex[]): Complex[] =>
  matrix.map((row) => sum(row.map((entry, k) => multiply(entry, at(values, k)))));

/**
 * The reading a chain gives of a site: stages 1 to 6 of docs/fault-model.md.
 *
 * @param chain Sound or faulty, for as many lines as the site has.
 * @returns Unrounded, without error of class or display.
 */
export function predictReading(chain: Chain, site: SiteState): MeterReading {
  const { voltageV, buildingA, chargePointA, generationA } = chain.site.reduce(changedSite, site);
  const inWindow = chain.window.map((row, c) =>
    sum(
      row.map((entry, k) =>
        multiply(
          entry,
          subtract(
            add(
              scaled(at(buildingA, k), (chain.seesBuilding[c] as number) * chain.meteredShare),
              scaled(at(chargePointA, k), chain.seesChargePoint[c] as number),
            ),
            scaled(at(generationA, k), chain.seesGeneration[c] as number),
          ),
        ),
      ),
    ),
  );
  const currents = combined(chain.secondary, inWindow).map((current) => metered(current, chain));
  return decodedReading(throughMode(chain.mode, combined(chain.taps, voltageV), currents), chain.decoding);
}

function metered(current: Complex, { setting, clipA, floorA }: Chain): Complex {
  const set = scaled(current, setting);
  const size = magnitude(set);
  const clipped = size > clipA ? scaled(set, clipA / size) : set;
  return Math.min(size, clipA) < floorA ? NOTHING : clipped;
}

/** Below this V·I nothing flows and a power factor means nothing. [VA] */
const LEAST_VA = 1e-9;

function throughMode(
  mode: Chain["mode"],
  voltages: readonly Complex[],
  currents: readonly Complex[],
): MeterReading {
  if (mode === "two-element") {
    const [u1, u2, u3] = [at(voltages, 0), at(voltages, 1), at(voltages, 2)];
    const [j1, j3] = [at(currents, 0), at(currents, 2)];
    return channelValues(
      [subtract(u1, u2), subtract(u3, u1), subtract(u3, u2)].map(magnitude),
      [j1, add(j1, j3), j3].map(magnitude),
      [multiply(subtract(u1, u2), conjugate(j1)), NOTHING, multiply(subtract(u3, u2), conjugate(j3))],
      [true, false, true],
    );
  }
  const powers = voltages.map((voltage, c) => multiply(voltage, conjugate(at(currents, c))));
  if (mode === "each-line") {
    return channelValues(voltages.map(magnitude), currents.map(magnitude), powers);
  }
  const shown = (channel: number): number => (mode === "first-line-copied" || channel === 0 ? 1 : 0);
  const first = <T>(values: readonly T[]): T => values[0] as T;
  return channelValues(
    voltages.map((_, c) => magnitude(first(voltages)) * shown(c)),
    voltages.map((_, c) => magnitude(first(currents)) * shown(c)),
    voltages.map((_, c) => scaled(first(powers), shown(c))),
  );
}

function channelValues(
  V: readonly number[],
  I: readonly number[],
  powers: readonly Complex[],
  hasFactor: readonly boolean[] = V.map(() => true),
): MeterReading {
  const total = sum(powers);
  return {
    V,
    I,
    P: powers.map(({ re }) => re),
    Q: powers.map(({ im }) => im),
    PF: powers.map(({ re }, c) => {
      const apparent = (V[c] as number) * (I[c] as number);
      return hasFactor[c] && apparent >= LEAST_VA ? re / apparent : null;
    }),
    totalP: total.re,
    totalQ: total.im,
  };
}

const unit = (voltage: Complex): Complex => scaled(voltage, 1 / magnitude(voltage));

/** The site itself changed: generation running, a car that draws otherwise, lines exchanged, neutral gone. */
function changedSite(site: SiteState, fault: FaultOf<"F44" | "F65" | "F46" | "F17">): SiteState {
  const { voltageV, chargePointA, generationA } = site;
  switch (fault.id) {
    case "F44":
      return {
        ...site,
        generationA: voltageV.map((voltage, k) =>
          add(at(generationA, k), scaled(unit(voltage), fault.amps[k] as number)),
        ),
      };
    case "F65":
      return {
        ...site,
        chargePointA: voltageV.map((_, k) => scaled(at(chargePointA, k), fault.shares[k] as number)),
      };
    case "F46": {
      const moved = voltageV.map(() => NOTHING);
      voltageV.forEach((voltage, k) => {
        const onto = (fault.order[k] as number) - 1;
        moved[onto] = multiply(at(chargePointA, k), divide(unit(at(voltageV, onto)), unit(voltage)));
      });
      return { ...site, chargePointA: moved };
    }
    case "F17":
      return withoutNeutral(site);
  }
}

/** Star point adrift: every load keeps its admittance, the neutral point moves to where currents sum to zero. */
function withoutNeutral({ voltageV, buildingA, chargePointA, generationA }: SiteState): SiteState {
  const admittances = voltageV.map((voltage, k) =>
    divide(subtract(add(at(buildingA, k), at(chargePointA, k)), at(generationA, k)), voltage),
  );
  const starPoint = divide(
    sum(voltageV.map((voltage, k) => multiply(at(admittances, k), voltage))),
    sum(admittances),
  );
  const left = voltageV.map((voltage) => subtract(voltage, starPoint));
  const shifted = (currents: readonly Complex[]): Complex[] =>
    voltageV.map((voltage, k) => multiply(at(currents, k), divide(at(left, k), voltage)));
  return {
    voltageV: left,
    buildingA: shifted(buildingA),
    chargePointA: shifted(chargePointA),
    generationA: shifted(generationA),
  };
}
