/**
 * One day of one dwelling's demand, minute by minute, out of the uses of its appliances.
 *
 * A stochastic model of this project's own on published figures of appliances: each appliance is used so many
 * times a day, at hours that follow its pattern, for so long. It is made for how high the demand of one or of
 * many dwellings rises, and for how briefly; not for what one particular dwelling does on one particular day.
 *
 * Sign: import is positive; lagging reactive power is positive.
 *
 * @module
 */
import { drawNormal, drawPoisson, type RandomStream } from "../../chance/index.ts";
import { requireInRange } from "../../quantities/index.ts";
import { DAY_MIN, DAY_S, DayCurve } from "./day-curve.ts";
import { type DayPattern, secondOfDay } from "./day-pattern.ts";
import { addHeatPump, outdoorC } from "./heat-pump.ts";
import type { Household, OwnedAppliance } from "./household.ts";
import { isWeekend, winterness } from "./season.ts";

/** A dwelling on a day. Day 0 is 1 January and a Monday; a year has 365 days. */
export interface HouseholdDay {
  readonly household: Household;
  readonly random: RandomStream;
  readonly day: number;
  /** Number of the weather: dwellings with the same one share it. */
  readonly weather?: number;
}

/**
 * Power of a dwelling in each minute of a day, as the mean of the minute.
 *
 * The same seed, site and day give the same powers whatever was drawn before.
 *
 * @param into 1440 places. [W]
 * @throws EngineError OUT_OF_DOMAIN when `into` has another length.
 */
export function syntheticDay(day: HouseholdDay, into: Float32Array | Float64Array): void {
  requireInRange("into.length", into.length, DAY_MIN, DAY_MIN);
  const curve = new DayCurve();
  fillDay(day, curve);
  for (let minute = 0; minute < DAY_MIN; minute++) into[minute] = (curve.activeJ[minute] as number) / 60;
}

/**
 * Current of a dwelling on one line in each minute of a day: apparent power over voltage.
 *
 * @param voltageV Line to neutral. [V], 50 to 1000
 * @param into 1440 places. [A]
 * @throws EngineError OUT_OF_DOMAIN for another voltage or length.
 */
export function syntheticDayCurrent(
  day: HouseholdDay,
  voltageV: number,
  into: Float32Array | Float64Array,
): void {
  requireInRange("voltageV", voltageV, 50, 1000);
  requireInRange("into.length", into.length, DAY_MIN, DAY_MIN);
  const curve = new DayCurve();
  fillDay(day, curve);
  for (let minute = 0; minute < DAY_MIN; minute++) {
    const [active, reactive] = [curve.activeJ[minute] as number, curve.reactiveVarS[minute] as number];
    into[minute] = Math.sqrt(active * active + reactive * reactive) / 60 / voltageV;
  }
}

/** The same into a curve that is used again and again. Allocates nothing. */
export function fillDay({ household, random, day, weather = 0 }: HouseholdDay, curve: DayCurve): void {
  const { heatPump, dailySpread } = household;
  const temperatureC = heatPump === null ? 0 : outdoorC(random, heatPump, { weather, day });
  random.start("appliances", { site: household.site, day });
  const winter = winterness(day);
  const busy = household.use * Math.exp(dailySpread * drawNormal(random) - dailySpread ** 2 / 2);
  curve.open(household.standbyW);
  for (const appliance of household.appliances) {
    const uses = appliance.usesPerDay * (1 + appliance.winterSwing * winter);
    if (appliance.pattern === null) addEvenly(curve, appliance, random, uses);
    else {
      const drawn = drawStarts(curve.startsS, {
        random,
        pattern: appliance.pattern,
        isWeekend: isWeekend(day),
        clockS: household.clockS,
        uses: appliance.followsPeople ? uses * busy : uses,
        isAtMostOnce: appliance.isAtMostOnce,
      });
      addUses(curve, appliance, random, drawn);
    }
  }
  if (heatPump !== null) addHeatPump(curve, heatPump, { random, temperatureC });
  curve.close();
}

/** What runs by its own thermostat: evenly through the day, beginning anywhere. */
function addEvenly(curve: DayCurve, appliance: OwnedAppliance, random: RandomStream, uses: number): void {
  const count = Math.floor(uses + random.uniform());
  const periodS = DAY_S / Math.max(1, count);
  const phase = random.uniform();
  for (let use = 0; use < count; use++) {
    // A tenth shorter to a tenth longer, so that no two dwellings stay in step.
    const lengthS = Math.min(periodS, appliance.useS * (0.9 + 0.2 * random.uniform()));
    curve.add(
      Math.floor((use + phase) * periodS),
      Math.round(lengthS),
      appliance.runningW,
      appliance.runningVar,
    );
  }
}

/** Draws the starts of a day's uses, earliest first, and says how many they are. */
function drawStarts(
  startsS: Float64Array,
  wanted: {
    readonly random: RandomStream;
    readonly pattern: DayPattern;
    readonly isWeekend: boolean;
    readonly clockS: number;
    readonly uses: number;
    readonly isAtMostOnce: boolean;
  },
): number {
  const { random, pattern, clockS } = wanted;
  const quantilesS = wanted.isWeekend ? pattern.weekendS : pattern.weekdayS;
  const mean = wanted.uses * (wanted.isWeekend ? pattern.weekendUse : pattern.weekdayUse);
  const count = wanted.isAtMostOnce
    ? Number(random.uniform() < mean)
    : Math.min(startsS.length, drawPoisson(random, mean));
  for (let use = 0; use < count; use++) {
    const startS = Math.floor(secondOfDay(quantilesS, random.uniform()) + clockS + DAY_S) % DAY_S;
    let place = use;
    for (; place > 0 && (startsS[place - 1] as number) > startS; place--)
      startsS[place] = startsS[place - 1] as number;
    startsS[place] = startS;
  }
  return count;
}

/**
 * Adds the uses of one appliance. A use that would begin in the one before waits for its end; the last of the
 * day ends where the first began, at the latest. So an appliance never runs twice at once.
 */
function addUses(curve: DayCurve, appliance: OwnedAppliance, random: RandomStream, count: number): void {
  const { heatedS, heatedW, runningW, runningVar } = appliance;
  const lastS = (curve.startsS[0] as number) + DAY_S;
  let freeS = 0;
  for (let use = 0; use < count; use++) {
    const fromS = Math.max(curve.startsS[use] as number, freeS);
    // Half as long to half as long again, evenly.
    const stretch = 0.5 + random.uniform();
    const lengthS = Math.min(Math.round(appliance.useS * stretch), lastS - fromS);
    if (lengthS <= 0) return;
    const heated = Math.min(Math.round(heatedS * stretch), lengthS);
    if (heated > 0) curve.add(fromS % DAY_S, heated, heatedW, runningVar);
    curve.add((fromS + heated) % DAY_S, lengthS - heated, runningW, runningVar);
    freeS = fromS + lengthS;
  }
}
