import { FAILURES } from "../job/index.ts";
import { mayHurtOpen, type Transformer } from "../metering/index.ts";
import type { JobOnTree, NodeOfKind } from "../supply/index.ts";
import { isolationOf } from "./isolation.ts";
import { isRecorded, isTrue, met, onSite } from "./need.ts";
import { taps } from "./taps.ts";
import type { Need, WorkStep } from "./work-step.ts";

/**
 * The work on site in a safe order, made from the job.
 *
 * Three rules shape it. Work is done dead wherever it can be dead, and a dead part is proved, tested and
 * the tester proved again. The secondary of a transformer with current output is at the meter, or shorted,
 * before the transformer closes on a conductor, and shorted again before it is disturbed. Nothing behind
 * the operator's seal is touched without permission on file.
 *
 * Common practice; the instructions of the makers and the licensed person on site go before it.
 */
export function orderOfWork(open: JobOnTree): readonly WorkStep[] {
  const { job } = open;
  const transformers = job.metering?.currentTransformers ?? [];
  const points = job.nodes.filter((node): node is NodeOfKind<"charge-point"> => node.kind === "charge-point");
  const isolation = isolationOf(open);
  return [
    permission(open),
    ...(job.metering === null ? [] : [settingsBefore(open)]),
    isolation.step,
    proveDead(open),
    ...points.map((point) => circuit(point.id, point.label)),
    ...transformers.flatMap((transformer) => [
      secondaryFirst(transformer),
      close(transformer, open, isolation.covers(transformer)),
    ]),
    ...(job.metering === null ? [] : [taps(open, isolation)]),
    ...(job.bus === null ? [] : [bus(open)]),
    deadTests(open),
    energise(open),
    liveTests(open),
    ...(job.limiter === null
      ? []
      : [settings(open), readIdle(), firstCharge(open), failures(open), lock(open)]),
    handOver(open),
  ];
}

function permission({ job }: JobOnTree): WorkStep {
  const { operator, serviceConcerns } = job.supply;
  const { needsFuseWithdrawal } = job.work;
  const drawn: Need[] =
    needsFuseWithdrawal.state === "known" && !needsFuseWithdrawal.value
      ? [met("No step needs the main fuse drawn.")]
      : [
          isRecorded("It is known whether the main fuse must be drawn.", needsFuseWithdrawal),
          isTrue("Permission to draw the main fuse is on file.", operator.allowsFuseWithdrawal),
        ];
  return {
    id: "permission",
    title: "Permission and service equipment",
    does: [
      "Look over cut-out, cable, meter and tails without opening anything.",
      "Have the operator's answer and every permission at hand before anything is switched off.",
    ],
    needs: [
      {
        words: "The service equipment was looked at and is sound.",
        state:
          serviceConcerns.state !== "known"
            ? "unknown"
            : serviceConcerns.value.length === 0
              ? "met"
              : "broken",
        path: serviceConcerns.path,
      },
      {
        words: "The operator does not object, or a notice afterwards is enough.",
        state:
          operator.answer.state !== "known"
            ? "unknown"
            : operator.answer.value === "may-proceed"
              ? "met"
              : "broken",
        path: operator.answer.path,
      },
      ...drawn,
    ],
    hold: "Signs of heat, damage or broken seals: stop, keep people away, call the network operator.",
    leaves: "Leave to begin.",
  };
}

function settingsBefore({ job }: JobOnTree): WorkStep {
  const metering = job.metering as NonNullable<typeof job.metering>;
  const [first] = metering.currentTransformers;
  const toSet = first === undefined || isCurrent(first) ? metering.ratioSetting : first.ratedPrimaryA;
  return {
    id: "settings-before",
    title: "Prepare meter and load manager",
    does: [
      "Set address, speed, parity and the transformers' ratio before the meter is out of reach.",
      "Set the load manager to offer nothing until the chain is proved.",
    ],
    needs: [
      isRecorded("The ratio to set is known.", toSet),
      ...(job.bus === null ? [] : [isRecorded("The meter's address is chosen.", job.bus.address)]),
    ],
    hold: null,
    leaves: "A meter that answers and a load manager that cannot start a car by itself.",
  };
}

function proveDead({ job }: JobOnTree): WorkStep {
  const [proof] = job.tests.deadProofs;
  return {
    id: "prove-dead",
    title: "Prove dead",
    does: [
      "Prove the tester on a proving unit.",
      `Test every pair at the place of work: ${job.supply.phases === 3 ? "each line to each line, each line to neutral and earth" : "line to neutral, line to earth"}, neutral to earth.`,
      "Prove the tester again at once.",
    ],
    needs: [
      proof === undefined
        ? { words: "The proof is recorded.", state: "unknown", path: "tests.deadProofs" }
        : isRecorded("The tester was proved again after the test.", proof.testerReprovedAt),
    ],
    hold: "Until the second proof the part is live.",
    leaves: "A dead place to work, for as long as the lock stays on.",
  };
}

const circuit = (id: string, label: string): WorkStep => ({
  id: `circuit-${id}`,
  title: `Circuit of ${label}`,
  does: [
    "Lay the cable, fit the device and the charge point, connect the load end first.",
    "Connect protective conductor and neutral before the line.",
  ],
  needs: [onSite("The place of work is proved dead.")],
  hold: "Dead and locked off.",
  leaves: "A circuit that is complete and still switched off at its own device.",
});

/** A lead that may be run to length: not where volts or milliamperes come with a lead of their own. */
const isCurrent = ({ output }: Transformer): boolean =>
  output.state !== "known" || output.value === "1-A" || output.value === "5-A";

function secondaryFirst(transformer: Transformer): WorkStep {
  const { id, channel } = transformer;
  return {
    id: `secondary-${id}`,
    title: `Secondary of ${id}`,
    does: isCurrent(transformer)
      ? [
          `Run the lead, connect S1 and S2 to the meter's input ${channel}, tighten, and tug each wire.`,
          "Where the meter is not there yet, join S1 and S2 with a link and leave it in until it is.",
        ]
      : [
          `Run the lead as supplied and connect it to the meter's input ${channel}; do not cut or lengthen it.`,
        ],
    needs: [
      isRecorded(`The output of ${id} is known.`, transformer.output),
      onSite(`${id} is not closed on a conductor yet.`),
    ],
    hold: mayHurtOpen(transformer)
      ? "An open secondary on a live conductor can kill: it is at the meter or shorted before the core closes, and shorted again before it is ever disturbed."
      : null,
    leaves: `${id} may be closed on its conductor.`,
  };
}

/** Where the secondary ends; what was not recorded only eyes on site can see. */
function endOf({ id, secondaryEnd }: Transformer): Need {
  const words = `The secondary of ${id} is at the meter, or shorted.`;
  if (secondaryEnd.state !== "known") return onSite(words);
  return { words, state: secondaryEnd.value === "open" ? "broken" : "met", path: secondaryEnd.path };
}

function close(transformer: Transformer, { tree }: JobOnTree, isDead: boolean): WorkStep {
  const { id, cable, conductor, channel, arrow } = transformer;
  return {
    id: `close-${id}`,
    title: `Close ${id}`,
    does: [
      `Clean both faces and close the core on ${conductor} of ${tree.cable(cable).name}, that conductor alone, centred.`,
      "The arrow, from P1 to P2, points to the load. Mark the line and the channel on it.",
    ],
    needs: [
      endOf(transformer),
      isRecorded(`The direction of ${id} was looked at.`, arrow),
      conductor === channel || conductor === "N"
        ? met(`${id} feeds the channel of its own line.`)
        : { words: `${id} feeds the channel of its own line.`, state: "broken", path: arrow.path },
    ],
    hold: isDead
      ? "Dead and locked off."
      : "The conductor may be live: on sound insulation only, with a split core, insulated gloves, and no terminal within reach.",
    leaves: `Channel ${channel} will show what ${conductor} of ${tree.cable(cable).name} carries.`,
  };
}

const bus = ({ job }: JobOnTree): WorkStep => ({
  id: "bus",
  title: "Bus between meter and load manager",
  does: [
    "D0 to D0, D1 to D1, common to common; the letters A and B are not the same on every device.",
    "Terminate both ends of a long line, polarise it at one place, earth the screen at one end: before power.",
  ],
  needs: [
    isRecorded("The kind of bus is known.", (job.bus as NonNullable<typeof job.bus>).kind),
    isRecorded("The terminations are counted.", (job.bus as NonNullable<typeof job.bus>).terminations),
  ],
  hold: "Extra-low voltage: kept apart from mains conductors or insulated for their voltage.",
  leaves: "With power on and nothing sent, D1 stands above D0 by more than 0.2 V: check it with a voltmeter.",
});

function deadTests({ job }: JobOnTree): WorkStep {
  const [test] = job.tests.circuits;
  return {
    id: "dead-tests",
    title: "Tests with the circuit dead",
    does: [
      "Continuity of protective conductors, R1+R2, polarity.",
      "Insulation, electronics disconnected or linked, at the voltage they stand.",
    ],
    needs:
      test === undefined
        ? [{ words: "A test sheet is made out.", state: "unknown", path: "tests.circuits" }]
        : [
            isRecorded("Insulation is recorded.", test.insulationMohm),
            isRecorded("Polarity is recorded.", test.polarityIsRight),
          ],
    hold: "Dead and locked off; nobody touches a conductor under test.",
    leaves: "A circuit fit to be made live.",
  };
}

function energise({ job }: JobOnTree): WorkStep {
  const [proof] = job.tests.deadProofs;
  return {
    id: "energise",
    title: "Make live",
    does: [
      "Covers on, tools counted, every secondary at its meter or shorted.",
      "Take the lock off, switch on, the charge point's own device last.",
    ],
    needs: [
      proof === undefined
        ? { words: "Dead working was proved.", state: "unknown", path: "tests.deadProofs" }
        : isRecorded("Dead working was proved.", proof.testedDeadAt),
      onSite("The tests with the circuit dead are done."),
    ],
    hold: "One person switches; everybody else stands clear and knows.",
    leaves: "A live circuit, its load manager offering nothing.",
  };
}

function liveTests({ job }: JobOnTree): WorkStep {
  const [test] = job.tests.circuits;
  return {
    id: "live-tests",
    title: "Tests with the circuit live",
    does: [
      "Ze, Zs and prospective fault current; the residual current device by time and by its button.",
      "The charge point's own checks, as its maker says.",
    ],
    needs:
      test === undefined
        ? [{ words: "A test sheet is made out.", state: "unknown", path: "tests.circuits" }]
        : [
            isRecorded("Zs is recorded.", test.zsOhm),
            isRecorded("The residual current device's time is recorded.", test.rcdTimeMs),
          ],
    hold: "Insulated probes, one hand, nobody behind you.",
    leaves: "A circuit that may be used.",
  };
}

const settings = ({ job }: JobOnTree): WorkStep => ({
  id: "settings",
  title: "Settings, before the first charge",
  does: ["Enter limit, margin and fallback from the settings sheet and read each back."],
  needs: [
    isRecorded("The limit was read back.", (job.limiter as NonNullable<typeof job.limiter>).limitA),
    isRecorded("The fallback was read back.", (job.limiter as NonNullable<typeof job.limiter>).fallbackA),
  ],
  hold: null,
  leaves: "A load manager that may offer current.",
});

const readIdle = (): WorkStep => ({
  id: "read-idle",
  title: "Read the meter, car idle",
  does: ["Write down volts, amperes, watts and vars of every channel, signs included, generation off."],
  needs: [onSite("The circuit is live and the settings are read back.")],
  hold: null,
  leaves: "The first step of the readings.",
});

const firstCharge = ({ job }: JobOnTree): WorkStep => ({
  id: "first-charge",
  title: "First charge, step by step",
  does: [
    job.supply.phases === 3
      ? "Let the car charge on one line after another where it can, at 16 A or more, and read every channel each time."
      : "Let the car charge at 16 A and at 32 A, and read every channel each time.",
    "Then switch a heater of known power on, line by line, and read again. Give the readings to diagnose and prove.",
  ],
  needs: [onSite("The idle reading is written down.")],
  hold: "A hand on the charge point's stop while the limit is not proved.",
  leaves: "Readings from which the chain is proved, or its fault named.",
});

function failures({ job }: JobOnTree): WorkStep {
  const tried = new Set(
    (job.limiter?.failures ?? [])
      .filter(({ offeredA }) => offeredA.state === "known")
      .map(({ failure }) => failure),
  );
  return {
    id: "failures",
    title: "Fail it on purpose",
    does: [
      "Cause each failure safely, wait for the time-out, and record the current offered.",
      "Transformer open: take out its plug, or short the secondary; never open a current secondary.",
    ],
    needs: FAILURES.map((failure) => ({
      words: `Tried: ${failure.replaceAll("-", " ")}.`,
      state: tried.has(failure) ? ("met" as const) : ("unknown" as const),
      path: "limiter.failures",
    })),
    hold: "Isolate before a conductor or a terminal is touched to cause a failure.",
    leaves: "A load manager known to fail safe.",
  };
}

const lock = ({ job }: JobOnTree): WorkStep => ({
  id: "lock",
  title: "Lock the settings",
  does: ["Lock them, try to change the limit as the customer would, and record what stops it."],
  needs: [isRecorded("What locks them is recorded.", (job.limiter as NonNullable<typeof job.limiter>).lock)],
  hold: null,
  leaves: "Settings that stay as they were proved.",
});

const handOver = ({ job }: JobOnTree): WorkStep => ({
  id: "hand-over",
  title: "Hand over",
  does: [
    "Certificate and schedules, operator's notice, readings and proof, settings sheet, how to switch off.",
  ],
  needs: [isRecorded("The certificate is chosen.", job.work.certificate)],
  hold: null,
  leaves: "Papers that others can rely on.",
});
