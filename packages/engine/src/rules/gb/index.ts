import type { Rule } from "../rule.ts";
import { breakingCapacity } from "./breaking-capacity.ts";
import { brokenNeutralProtection } from "./broken-neutral-protection.ts";
import { buildingControlNotice } from "./building-control-notice.ts";
import { certificateKind } from "./certificate-kind.ts";
import { deadProof } from "./dead-proof.ts";
import { dedicatedCircuit } from "./dedicated-circuit.ts";
import { directCurrentProtection } from "./direct-current-protection.ts";
import { disconnection } from "./disconnection.ts";
import { discrimination } from "./discrimination.ts";
import { earthingConductor } from "./earthing-conductor.ts";
import { electrode } from "./electrode.ts";
import { externalLoopImpedance } from "./external-loop-impedance.ts";
import { generationRoute } from "./generation-route.ts";
import { insulationResistance } from "./insulation-resistance.ts";
import { limitWithinSupply } from "./limit-within-supply.ts";
import { limiterFailsSafe } from "./limiter-fails-safe.ts";
import { limiterResponse } from "./limiter-response.ts";
import { limiterSettingsLocked } from "./limiter-settings-locked.ts";
import { mainBonding } from "./main-bonding.ts";
import { mainFuseWithdrawal } from "./main-fuse-withdrawal.ts";
import { meterRatio } from "./meter-ratio.ts";
import { neutralConductor } from "./neutral-conductor.ts";
import { newBuildingChargePoint } from "./new-building-charge-point.ts";
import { operatorDeadline } from "./operator-deadline.ts";
import { operatorRoute } from "./operator-route.ts";
import { overloadProtection } from "./overload-protection.ts";
import { polarity } from "./polarity.ts";
import { protectiveConductor } from "./protective-conductor.ts";
import { readingsAgree } from "./readings-agree.ts";
import { recordingUsed } from "./recording-used.ts";
import { residualDevice } from "./residual-device.ts";
import { residualDeviceTime } from "./residual-device-time.ts";
import { smartChargePoint } from "./smart-charge-point.ts";
import { supplyCarriesDemand } from "./supply-carries-demand.ts";
import { supplyVoltage } from "./supply-voltage.ts";
import { surgeProtection } from "./surge-protection.ts";
import { tails } from "./tails.ts";
import { transformerBurden } from "./transformer-burden.ts";
import { transformerClassAsInstalled } from "./transformer-class-as-installed.ts";
import { transformerCoverage } from "./transformer-coverage.ts";
import { transformerDirection } from "./transformer-direction.ts";
import { transformerLowEnd } from "./transformer-low-end.ts";
import { transformerOpenSecondary } from "./transformer-open-secondary.ts";
import { transformerRating } from "./transformer-rating.ts";
import { voltageDrop } from "./voltage-drop.ts";
import { weatherProtection } from "./weather-protection.ts";
import { wiringRulesEdition } from "./wiring-rules-edition.ts";

/** Every rule, in the order of the job: survey, decide, size, fit, prove, hand over. */
export const GB_RULES: readonly Rule[] = [
  externalLoopImpedance,
  supplyVoltage,
  tails,
  earthingConductor,
  mainBonding,
  recordingUsed,
  supplyCarriesDemand,
  operatorRoute,
  generationRoute,
  brokenNeutralProtection,
  electrode,
  surgeProtection,
  weatherProtection,
  newBuildingChargePoint,
  buildingControlNotice,
  dedicatedCircuit,
  overloadProtection,
  neutralConductor,
  breakingCapacity,
  disconnection,
  residualDevice,
  directCurrentProtection,
  protectiveConductor,
  voltageDrop,
  discrimination,
  transformerRating,
  transformerLowEnd,
  transformerBurden,
  transformerCoverage,
  mainFuseWithdrawal,
  deadProof,
  transformerOpenSecondary,
  transformerDirection,
  transformerClassAsInstalled,
  meterRatio,
  limitWithinSupply,
  polarity,
  insulationResistance,
  readingsAgree,
  residualDeviceTime,
  limiterResponse,
  limiterFailsSafe,
  limiterSettingsLocked,
  smartChargePoint,
  wiringRulesEdition,
  certificateKind,
  operatorDeadline,
];
