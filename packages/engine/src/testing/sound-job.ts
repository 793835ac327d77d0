import {
  blankCircuitTest,
  blankJob,
  blankLimiter,
  blankMetering,
  blankNode,
  blankTransformer,
} from "../job/blank.ts";
import { type Job, known, notApplicable } from "../job/index.ts";
import { FAILURES } from "../job/schema/limiter.ts";
import { describedRun } from "./run.ts";

const tails = () =>
  describedRun({
    construction: known("single-core"),
    lineMm2: known(25),
    neutralMm2: known(25),
    protective: { form: known("separate"), mm2: known(16) },
    lengthM: known(1),
  });

const breaker = (ratingA: number, curve: "B" | "C" = "B") => ({
  standard: known("bs-en-61009" as const),
  curve: known(curve),
  ratingA: known(ratingA),
  breakingCapacityKa: known(6),
});
const residual = () => ({
  type: known("A" as const),
  ratedResidualMa: known(30),
  isTimeDelayed: known(false),
  opensAllLiveConductors: known(true),
});

/**
 * A small dwelling on a 100 A supply with one managed charge point, everything known, measured and in order:
 * every rule passes or does not apply. Tests change one thing and see one rule turn.
 */
export function soundJob(): Job {
  const job = blankJob({ id: "sound", title: "Sound", jurisdiction: "england", phases: 1 });
  const join = (from: string, to: string, run: Job["cables"][number]["run"]) => ({
    id: `${from}-to-${to}`,
    from,
    to,
    lines: ["L1" as const],
    run,
  });
  return {
    ...job,
    site: { ...job.site, premises: known("dwelling"), isNewBuilding: known(false) },
    work: {
      ...job.work,
      wiringRules: known("bs7671-2018-a4-2026"),
      designedOn: known("2026-11-02"),
      startsOn: known("2026-11-16"),
      energisedOn: known("2026-11-17"),
      signedOn: known("2026-11-18"),
      certificate: known("installation"),
      addsCircuit: known(true),
      installerIsRegistered: known(true),
      buildingControlToldOn: known("2026-11-19"),
      needsFuseWithdrawal: known(false),
    },
    supply: {
      ...job.supply,
      nominalVoltageV: known(230),
      measuredVoltageV: {
        L1: known(240),
        L2: notApplicable("single-phase"),
        L3: notApplicable("single-phase"),
      },
      measuredZeOhm: known(0.2),
      measuredFaultCurrentKa: known(1.2),
      isLooped: known(false),
      isUnmetered: known(false),
      serviceConcerns: known([]),
      operator: { ...job.supply.operator, notifiedOn: known("2026-11-20") },
    },
    earthing: {
      ...job.earthing,
      arrangement: known("TN-C-S"),
      earthingConductorMm2: known(16),
      supplyNeutralMm2: known(25),
      bonding: [{ service: "water", mm2: known(10) }],
    },
    nodes: [
      blankNode("origin", { id: "origin", label: "Supply" }),
      blankNode("cut-out", {
        id: "cut-out",
        label: "Cut-out",
        overcurrent: {
          standard: known("bs-88-3"),
          curve: notApplicable("a fuse"),
          ratingA: known(100),
          breakingCapacityKa: known(16),
        },
      }),
      blankNode("meter", { id: "meter", label: "Meter" }),
      blankNode("board", {
        id: "board",
        label: "Board",
        form: known("consumer-unit" as const),
        residual: null,
      }),
      blankNode("load", { id: "house", label: "House", purpose: "heat-pump", ratedA: known(20) }),
      blankNode("way", { id: "way", label: "Way", overcurrent: breaker(32), residual: residual() }),
      blankNode("charge-point", {
        id: "car",
        label: "Charge point",
        ratedA: known(32),
        declaredOutputW: known(7360),
        isOutdoors: known(true),
        isPrivate: known(true),
        soldOn: known("2026-10-01"),
        outlet: known("socket" as const),
        isMode3: known(true),
        hasStatusIndicator: known(true),
        inletIp: known("IP54"),
        overcurrentInside: null,
        residualInside: null,
        detectsDirectCurrent: known(true),
        openPen: {
          method: known("device-with-earth-reference"),
          isInsideChargePoint: known(true),
          hasEarthReference: known(true),
          hasMakersStatement: notApplicable("a listed device"),
          recloses: known(false),
          electrode: null,
          isNearEarthedMetal: notApplicable("no electrode of its own"),
        },
        smart: {
          hasStatement: known(true),
          offersDefaultHours: known(true),
          randomDelayDefaultS: known(600),
          randomDelayCapabilityS: known(1800),
          chargesWithoutNetwork: known(true),
        },
        exportA: notApplicable("charges only"),
      }),
    ],
    cables: [
      join("origin", "cut-out", "busbar"),
      join("cut-out", "meter", tails()),
      join("meter", "board", tails()),
      join("board", "house", "not-surveyed"),
      join("board", "way", "busbar"),
      join(
        "way",
        "car",
        describedRun({ lengthM: known(15), protective: { form: known("separate"), mm2: known(6) } }),
      ),
    ],
    demand: {
      recordings: [
        {
          kind: "recorded-maximum",
          id: "log",
          line: "L1",
          maximumA: known(25),
          averagingMin: known(1),
          days: known(30),
          doesNotInclude: [],
        },
      ],
    },
    surge: {
      isFitted: known(true),
      hasSeriousConsequence: known(false),
      ownerDeclines: notApplicable("fitted"),
    },
    metering: {
      ...blankMetering(),
      currentTransformers: [
        {
          ...blankTransformer({ id: "ct1", cable: "cut-out-to-meter", conductor: "L1", channel: "L1" }),
          arrow: known("towards-load"),
          output: known("5-A"),
          ratedPrimaryA: known(100),
          primaryTurns: known(1),
          accuracyClass: known("1"),
          ratedBurdenVa: known(5),
          leadLengthM: known(2),
          leadMm2: known(1.5),
          secondaryEnd: known("meter"),
        },
      ],
      meterClass: known("B"),
      meterBurdenVa: known(0.5),
      ratioSetting: known(20),
    },
    limiter: {
      ...blankLimiter(["car"]),
      limitA: known(90),
      fallbackA: known(16),
      isLimitationScheme: known(false),
      lock: known("pin"),
      responseS: known(8),
      failures: FAILURES.map((failure) => ({ failure, offeredA: known(16) })),
    },
    tests: {
      deadProofs: [
        {
          where: "board",
          testerProvedAt: known("2026-11-16T09:00"),
          testedDeadAt: known("2026-11-16T09:02"),
          testerReprovedAt: known("2026-11-16T09:04"),
          pairs: ["L1-N", "L1-E", "N-E"],
        },
      ],
      circuits: [
        {
          ...blankCircuitTest("way"),
          r1r2Ohm: known(0.1),
          insulationMohm: known(200),
          insulationTestV: known(500),
          polarityIsRight: known(true),
          zsOhm: known(0.35),
          rcdTimeMs: known(25),
          rcdButtonWorks: known(true),
        },
      ],
    },
  };
}
