import type { Construction, Grouping, Insulation, Metal, Method } from "../job/index.ts";
import type { Citation } from "../worked/index.ts";

/** Current-carrying capacity by conductor size, installation method and loaded conductors. */
export interface CapacityTable {
  readonly id: string;
  readonly construction: Construction;
  readonly insulation: Insulation;
  readonly citation: Citation;
  readonly columns: readonly (readonly [method: Method, loaded: 2 | 3])[];
  /** Conductor [mm²], then one capacity [A] a column; null where the table has none. */
  readonly rows: readonly (readonly [mm2: number, ...capacityA: (number | null)[]])[];
}

/** Voltage drop per ampere and metre at the conductor temperature of the insulation. */
export interface VoltageDropTable {
  readonly id: string;
  readonly construction: Construction;
  readonly insulation: Insulation;
  /** 2: along line and neutral. 3: between lines. */
  readonly loaded: 2 | 3;
  /** Methods it holds for; null for all. */
  readonly methods: readonly Method[] | null;
  readonly citation: Citation;
  /** Conductor [mm²], resistive part, reactive part, impedance [mV/(A·m)]. */
  readonly rows: readonly (readonly [mm2: number, r: number, x: number | null, z: number | null])[];
}

/** A rating factor by one argument. Rows ascend; an argument between two rows takes the harsher. */
export interface FactorTable {
  readonly citation: Citation;
  readonly rows: readonly (readonly [argument: number, factor: number])[];
  /** Whether the factor falls as the argument grows. */
  readonly falls: boolean;
}

/** Adiabatic constant of a protective conductor. */
export interface AdiabaticRow {
  readonly form: "core" | "separate" | "armour";
  readonly metal: Metal | "steel";
  readonly insulation: Insulation;
  readonly initialC: number;
  readonly finalC: number;
  readonly k: number;
  readonly citation: Citation;
}

/** Everything printed that cable sizing reads. Copper throughout: aluminium has no table here yet. */
export interface CircuitTables {
  readonly resistance: {
    readonly citation: Citation;
    /** Conductor [mm²], class 1 and 2, class 5: greatest resistance at 20 °C [Ω/km]. */
    readonly rows: readonly (readonly [mm2: number, rigid: number, flexible: number])[];
  };
  readonly armour: {
    readonly citation: Citation;
    /** Conductor [mm²], then 2, 3, 4 and 5 cores: resistance of the steel armour at 20 °C [Ω/km]. */
    readonly rows: readonly (readonly [
      mm2: number,
      two: number,
      three: number,
      four: number,
      five: number,
    ])[];
  };
  readonly capacity: readonly CapacityTable[];
  readonly voltageDrop: readonly VoltageDropTable[];
  readonly ambientInAir: Readonly<Record<Insulation, FactorTable>>;
  readonly ambientInGround: Readonly<Record<Insulation, FactorTable>>;
  readonly grouping: Readonly<Record<Grouping, FactorTable>>;
  readonly inInsulation: FactorTable;
  readonly soil: FactorTable;
  readonly depth: FactorTable;
  readonly adiabatic: readonly AdiabaticRow[];
}
