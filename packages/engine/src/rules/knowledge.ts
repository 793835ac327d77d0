import type { CapacityFigure, CircuitTables, ConductorFigure, VoltageDropFigure } from "../circuits/index.ts";
import type { DemandFigure, DemandTables } from "../demand/index.ts";
import type { EarthingTables, RodFigure } from "../earthing/index.ts";
import type { Job } from "../job/index.ts";
import type { LimitFigure } from "../limiter/index.ts";
import type { MeteringFigure, MeteringTables } from "../metering/index.ts";
import type { DisconnectionFigure, ProtectionTables } from "../protection/index.ts";
import type { FaultCatalogue } from "../proving/index.ts";
import type { SimulationFigure } from "../simulation/index.ts";
import type { Citation, Figure, Source } from "../worked/index.ts";

export type Edition = Extract<Job["work"]["wiringRules"], { state: "known" }>["value"];

/** Figures that the rules themselves compare with. */
export type RuleFigure =
  | "bondingCeiling"
  | "bondingFloor"
  | "buildingNoticeAheadDays"
  | "buildingNoticeDays"
  | "carFollowsS"
  | "conditionalFuseA"
  | "conditionalRatingKa"
  | "electrodeStableOhm"
  | "generationNotifyA"
  | "idleLineA"
  | "insulationMinMohm"
  | "insulationTestV"
  | "limiterResponseLongestS"
  | "limiterResponseTypicalS"
  | "maxVoltageFactor"
  | "neutralFullUpToMm2"
  | "newBuildingOutputW"
  | "notifyDays"
  | "notifyThresholdA"
  | "openPenTouchV"
  | "randomDelayCapabilityS"
  | "randomDelayDefaultS"
  | "readingShare"
  | "readingSlackOhm"
  | "residualRatedMa"
  | "residualTimeAtFiveMs"
  | "residualTimeDelayedAtFiveMs"
  | "residualTimeDelayedMaxMs"
  | "residualTimeDelayedMinMs"
  | "residualTimeMs"
  | "residualTimeTtMs"
  | "supplyVoltageMax"
  | "supplyVoltageMin"
  | "tailsMaxM"
  | "tailsMinMm2"
  | "tailsMinMm2At100A"
  | "touchVoltageTt"
  | "voltageDropPercent"
  | "zeSuspectOhm"
  | "zeTncsOhm"
  | "zeTnsOhm"
  | "zsColdShare";

export type FigureId =
  | RuleFigure
  | CapacityFigure
  | ConductorFigure
  | DemandFigure
  | DisconnectionFigure
  | LimitFigure
  | MeteringFigure
  | RodFigure
  | SimulationFigure
  | VoltageDropFigure;

/** Where a rule or a formula is printed, by edition of the wiring rules where that matters. */
export interface Clause {
  readonly title: string;
  /** Oldest edition first; `edition: null` for a source that is not the wiring rules. */
  readonly printed: readonly { readonly edition: Edition | null; readonly citation: Citation }[];
}

export interface EditionDates {
  readonly id: Edition;
  readonly title: string;
  /** First day it may be used. */
  readonly from: string;
  /** Last day it may be used; null while it is in force. */
  readonly until: string | null;
  readonly citation: Citation;
}

/** Everything of a jurisdiction that is data: no code, and every figure with its source and standing. */
export interface Knowledge {
  readonly sources: readonly Source[];
  readonly figures: Readonly<Record<FigureId, Figure>>;
  /** By rule id, and by the clause a working step names. */
  readonly clauses: Readonly<Record<string, Clause>>;
  readonly editions: readonly EditionDates[];
  readonly circuits: CircuitTables;
  readonly demand: DemandTables;
  readonly earthing: EarthingTables;
  readonly metering: MeteringTables;
  readonly protection: ProtectionTables;
  readonly faults: FaultCatalogue;
}
